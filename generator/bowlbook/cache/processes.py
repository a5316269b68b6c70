"""Work shared out over the processors of a machine, where that can be done without harm."""

import ctypes
import os
import pickle
import signal
import sys
import threading
from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress
from functools import partial
from multiprocessing.connection import Connection, Pipe
from typing import Any, TypeVar

Made = TypeVar("Made")

PR_SET_PDEATHSIG = 1
FEWEST = 40
"""Makers for which another process is worth its start."""


def processors() -> int:
    """How many processors this process may use; BOWLBOOK_PROCESSES sets another number."""
    wanted = os.environ.get("BOWLBOOK_PROCESSES", "")
    if wanted.isdecimal() and int(wanted) > 0:
        return int(wanted)
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def processes_at_hand() -> int:
    """How many processes may share a work: `processors`, and 1 where a fork is not to be had or not safe.

    Not safe: beside other threads, and on macOS, whose own libraries run threads (Python's documentation of
    ``multiprocessing``, contexts and start methods).
    """
    can_fork = hasattr(os, "fork") and sys.platform != "darwin" and threading.active_count() == 1
    return processors() if can_fork else 1


def all_made(makers: Sequence[Callable[[], Iterable[Made]]], processes: int | None = None) -> list[Made]:
    """All that the makers make, in their order, each run in one of several processes.

    The makers themselves are never sent: each process is a fork that has them already, and sends back what
    they made. An exception in any of them is raised here.
    """
    count = processes or processes_at_hand()
    if count == 1 or len(makers) < FEWEST:
        return [made for maker in makers for made in maker()]
    helpers = [_begun(makers[number::count]) for number in range(1, count)]
    parts: list[list[list[Made]]] = []
    try:
        parts.append([list(maker()) for maker in makers[::count]])
    finally:
        answers = [answer_of() for answer_of in helpers]
    for answer in answers:
        if isinstance(answer, BaseException):
            raise answer
        parts.append(answer)
    return [made for place in range(len(makers)) for made in parts[place % count][place // count]]


def _begun(makers: Sequence[Callable[[], Iterable[Any]]]) -> Callable[[], Any]:
    """Begin a fork that runs the makers. Returned is what waits for its answer.

    Where the system gives no other process, or no pipe to it, they are run in this one, at that time.
    """
    if sys.platform == "win32":  # which has no fork
        return partial(_answer, makers)
    parent = os.getpid()
    try:
        here, there = Pipe(duplex=False)
        child = os.fork()
    except OSError:
        return partial(_answer, makers)
    if child:
        there.close()
        return partial(_ended, child, here)
    status = 1
    try:
        here.close()  # or it would wait for itself to read, were nobody else left
        _end_with(parent)
        there.send_bytes(pickle.dumps(_answer(makers), pickle.HIGHEST_PROTOCOL))
        there.close()
        status = 0
    finally:
        os._exit(status)


def _answer(makers: Sequence[Callable[[], Iterable[Any]]]) -> object:
    """What each of the makers makes, or what went wrong."""
    try:
        return [list(maker()) for maker in makers]
    except Exception as error:
        return error


def _end_with(parent: int) -> None:
    """End this process when its parent ends, in whatever way (Linux ``prctl``), or else with its answer."""
    if sys.platform == "linux":
        ctypes.CDLL(None).prctl(PR_SET_PDEATHSIG, signal.SIGKILL)
    if os.getppid() != parent:  # it ended before that was said
        os._exit(1)


def _ended(child: int, here: Connection) -> Any:
    """The answer of a fork; an exception where it ended without one."""
    try:
        answer = pickle.loads(here.recv_bytes())
    except (EOFError, OSError):  # before it, or in the middle of it
        answer = ChildProcessError("a process that made pages ended before it had done so")
    here.close()
    with suppress(ChildProcessError):  # begun by a program that ignores the end of its children
        os.waitpid(child, 0)
    return answer
