"""Work shared out over processes: the same answer in the same order, and no fault lost."""

import os
import pickle
import signal
import stat
import subprocess
import sys
import threading
from collections.abc import Callable
from contextlib import suppress
from functools import partial
from pathlib import Path
from typing import NoReturn

import pytest

from bowlbook.cache.processes import FEWEST, all_made, processes_at_hand
from systems import needs_fork, needs_proc


def makers(count: int, broken: int | None = None) -> list[Callable[[], int]]:
    def maker(number: int) -> int:
        if number == broken:
            raise ValueError(f"maker {number}")
        return number % 3

    return [partial(maker, number) for number in range(count)]


def by_place(makers: list[Callable[[], int]], processes: int) -> list[tuple[int, int]]:
    return sorted(all_made(makers, processes))


def one_by_one(makers: list[Callable[[], int]]) -> list[tuple[int, int]]:
    return [(place, maker()) for place, maker in enumerate(makers)]


@pytest.mark.parametrize("count", [0, 1, FEWEST, FEWEST + 7])
@pytest.mark.parametrize("processes", [1, 2, 3, 5])
def test_each_is_made_once(count: int, processes: int) -> None:
    assert by_place(makers(count), processes) == one_by_one(makers(count))


@pytest.mark.parametrize("broken", [0, 1, 2, FEWEST - 1])
def test_a_fault_in_any_of_them_is_raised_here(broken: int) -> None:
    with pytest.raises(ValueError, match=f"maker {broken}"):
        by_place(makers(FEWEST, broken), 3)


@pytest.mark.parametrize(("what", "left"), [("fork", 0), ("pipe", 0), ("pipe", 1)])
@needs_fork
@needs_proc
def test_where_no_process_can_be_had_this_one_does_it(
    what: str, left: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    had = [getattr(os, what)] * left

    def none() -> object:
        if not had:
            raise BlockingIOError("no more of these")
        return had.pop()()

    monkeypatch.setattr(os, what, none)
    open_before = len(list(Path("/proc/self/fd").iterdir()))
    assert by_place(makers(FEWEST), 3) == one_by_one(makers(FEWEST))
    with pytest.raises(ValueError, match="maker 1"):
        by_place(makers(FEWEST, 1), 3)
    assert len(list(Path("/proc/self/fd").iterdir())) == open_before


@needs_fork
def test_a_pipe_that_cannot_be_watched_is_no_lost_result(monkeypatch: pytest.MonkeyPatch) -> None:
    def register(*given: object) -> None:
        raise OSError("no more of these")

    monkeypatch.setattr("bowlbook.cache.processes.DefaultSelector.register", register)
    with pytest.raises(OSError, match="no more of these"):
        by_place(makers(FEWEST), 2)


@needs_fork
def test_where_the_end_of_a_process_is_not_reported() -> None:
    """As under a program that lets nobody wait for its children: the system forgets each that ends."""
    usual = signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    try:
        assert by_place(makers(FEWEST), 2) == one_by_one(makers(FEWEST))
    finally:
        signal.signal(signal.SIGCHLD, usual)


def wait_for_the_other() -> int:
    """Until the other process has ended."""
    os.waitid(os.P_ALL, 0, os.WEXITED | os.WNOWAIT)
    return 0


@needs_proc
def test_a_process_that_ends_is_noticed() -> None:
    here = os.getpid()

    def maker() -> int:
        return wait_for_the_other() if os.getpid() == here else os._exit(3)

    with pytest.raises(ChildProcessError):
        by_place([maker] * FEWEST, 2)


@needs_proc
def test_each_takes_the_next_when_it_is_free() -> None:
    """Whoever makes a long one, or has to keep what all make, leaves the rest to the others."""
    here = os.getpid()

    def maker() -> bool:
        is_here = os.getpid() == here
        if is_here:
            wait_for_the_other()
        return is_here

    assert sum(was_here for _, was_here in by_place([maker] * FEWEST, 2)) <= 1


@needs_fork
def test_results_come_while_others_are_made() -> None:
    """None waits for the last, so that no process holds all of them."""
    (begun, begin), (ended, end) = os.pipe(), os.pipe()
    here = os.getpid()
    mine: list[int] = []

    def maker(number: int) -> int:
        mine.append(number)
        if os.getpid() != here:
            os.write(begin, b".")
            if len(mine) == 2:
                os.read(ended, 1)  # until all other results are here
        elif len(mine) <= 2:
            os.read(begun, 1)  # so that the other process has two
        return number

    found = all_made([partial(maker, number) for number in range(FEWEST)], 2)
    places = [next(found)[0] for _ in range(FEWEST - 1)]
    os.write(end, b".")
    assert sorted([*places, *(place for place, _ in found)]) == [*range(FEWEST)]
    for each in (begun, begin, ended, end):
        os.close(each)


@needs_fork
def test_who_needs_no_more_ends_the_others(monkeypatch: pytest.MonkeyPatch) -> None:
    begun: list[int] = []

    def fork(inner: Callable[[], int] = os.fork) -> int:
        begun.append(inner())
        return begun[-1]

    monkeypatch.setattr(os, "fork", fork)
    found = all_made([partial(bytes, 1_000_000)] * FEWEST, 4)
    next(found)
    found.close()
    assert len(begun) == 3
    for child in begun:  # one that was waited for is no child any more
        with pytest.raises(ChildProcessError):
            os.waitpid(child, os.WNOHANG)


SENT = [b"", pickle.dumps((0, "an answer"))[:-5]]
"""What a process sends that ends before its answer, and in the middle of it."""


def end_after(sent: bytes) -> NoReturn:
    """End this process, which is another one's, when so much of an answer is sent."""
    os.write(max((int(each.name) for each in Path("/proc/self/fd").iterdir()), key=_is_pipe), sent)
    os._exit(1)


@pytest.mark.parametrize("sent", SENT)
@needs_proc
def test_ctrl_c_is_what_ends_this_process_too(sent: bytes) -> None:
    """Also where it ended the other in the middle of its answer."""
    here = os.getpid()

    def maker() -> int:
        if os.getpid() == here:
            raise KeyboardInterrupt
        end_after(sent)

    with pytest.raises(KeyboardInterrupt):
        by_place([maker] * FEWEST, 2)


@pytest.mark.parametrize("sent", SENT)
@needs_proc
def test_an_answer_that_breaks_off_is_noticed(sent: bytes) -> None:
    here = os.getpid()

    def maker() -> int:
        return wait_for_the_other() if os.getpid() == here else end_after(sent)

    with pytest.raises(ChildProcessError):
        by_place([maker] * FEWEST, 2)


def _is_pipe(handle: int) -> tuple[bool, int]:
    """The pipe that was opened last is greatest."""
    with suppress(OSError):
        return stat.S_ISFIFO(os.fstat(handle).st_mode), handle
    return False, handle


ORPHANS = """
import os, sys, time
from bowlbook.cache.processes import all_made

def slow():
    sys.stdout.write(f"{os.getpid()}\\n")
    sys.stdout.flush()
    time.sleep(60 if os.getpid() != HERE else 0)
    return "x" * 1_000_000

HERE = os.getpid()
if os.fork() == 0:
    HERE = os.getpid()
    list(all_made([slow] * 60, 3))
    os._exit(0)
time.sleep(1)
"""


@needs_proc
def test_nothing_is_left_of_a_build_that_is_killed() -> None:
    """Whoever made pages for it ends too, at once: the pipe to whoever waits for the output is closed."""
    started = subprocess.Popen(
        [sys.executable, "-c", ORPHANS],
        env={**os.environ, "PYTHONPATH": str(Path(__file__).parents[2] / "generator")},
        stdout=subprocess.PIPE,
        text=True,
    )
    assert started.stdout is not None
    makers: set[int] = set()
    while len(makers) < 3:
        makers.add(int(started.stdout.readline()))
    (main,) = {_parent_of(each) for each in makers} & makers
    os.kill(main, signal.SIGKILL)
    started.communicate()  # ends when every process that could write has ended
    assert not any(_is_running(each) for each in makers)


def _parent_of(process: int) -> int:
    return int(Path(f"/proc/{process}/stat").read_text(encoding="ascii").rpartition(")")[2].split()[1])


def _is_running(process: int) -> bool:
    try:
        return Path(f"/proc/{process}/stat").read_text(encoding="ascii").rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


def test_no_fork_beside_other_threads(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOWLBOOK_PROCESSES", "4")
    done = threading.Event()
    waiting = threading.Thread(target=done.wait)
    waiting.start()
    assert processes_at_hand() == 1
    done.set()
    waiting.join()
