"""Work shared out over the processors of a machine, where that can be done without harm."""

import gc
import os
import pickle
import signal
import sys
import threading
from collections.abc import Callable, Generator, Iterator, Sequence
from contextlib import contextmanager, suppress
from selectors import EVENT_READ, DefaultSelector
from typing import IO, Any, NoReturn, TypeVar, cast

Made = TypeVar("Made")

PR_SET_PDEATHSIG = 1
FEWEST = 40
"""Makers for which another process is worth its start."""
PORTIONS = 1000
"""Portions in which makers are handed out; two bytes for each must fit into any pipe (POSIX: 4,096)."""
LAST = pickle.dumps((None, None))
"""What a fork sends after its last result."""


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


def all_made(
    makers: Sequence[Callable[[], Made]], processes: int | None = None
) -> Generator[tuple[int, Made], None, None]:
    """What each maker makes, with the maker's place, as soon as it is there; run in several processes.

    The others begin when the first result is asked for, and go on between two; closed, they end.

    The makers themselves are never sent: each process is a fork that has them already, takes the next ones
    whenever it has made the last, and sends back what each of them made. So no process holds more than one
    result, and what the pipe takes. An exception in any of them is raised here.
    """
    count = processes or processes_at_hand()
    if count == 1 or len(makers) < FEWEST:
        yield from ((place, maker()) for place, maker in enumerate(makers))
        return
    with frozen(), _Children(makers) as children:
        for _ in range(1, count):
            children.begin()
        for place in children.places():
            yield place, makers[place]()
            yield from children.received(0)
        yield from children.received(None)


@contextmanager
def frozen() -> Iterator[None]:
    """Let garbage collections in the block leave out what was there before it, and is held anyway.

    A full one takes a seventh of a build after an edit; beside a fork it copies what the two share.
    """
    is_outermost = gc.get_freeze_count() == 0
    gc.freeze()
    try:
        yield
    finally:
        if is_outermost:
            gc.unfreeze()


class _Children:
    """Forks that run makers, and the pipes on which they send what was made."""

    def __init__(self, makers: Sequence[Callable[[], Any]]) -> None:
        self._makers = makers
        self._portions: int | None = None
        """A pipe with the numbers of the portions that no process has taken yet."""
        self._pipes = DefaultSelector()
        self._children: list[int] = []

    def __enter__(self) -> "_Children":
        with suppress(OSError):  # without a pipe there is no other process
            self._portions, end = os.pipe()
            os.write(end, b"".join(number.to_bytes(2, "big") for number in range(PORTIONS)))
            os.close(end)
        return self

    def __exit__(self, *_: object) -> None:
        """Wait for their end; one that still runs ends where it finds its pipe closed."""
        for key in [*self._pipes.get_map().values()]:
            cast(Any, key.fileobj).close()
        self._pipes.close()
        if self._portions is not None:
            os.close(self._portions)
        for child in self._children:
            with suppress(ChildProcessError):  # begun by a program that ignores the end of its children
                os.waitpid(child, 0)

    def places(self) -> Iterator[int]:
        """The places of makers that no other process has taken, each taken when it is asked for."""
        count = len(self._makers)
        if self._portions is None:
            yield from range(count)
            return
        size = -(-count // PORTIONS)
        while number := os.read(self._portions, 2):
            start = int.from_bytes(number, "big") * size
            yield from range(start, min(start + size, count))

    def begin(self) -> None:
        """Begin a fork that runs makers, where the system gives one, and a pipe to it."""
        if sys.platform == "win32" or self._portions is None:  # Windows has no fork
            return
        parent = os.getpid()
        try:
            here, there = map(open, os.pipe(), ("rb", "wb"))
        except OSError:
            return
        with there:
            try:
                child = os.fork()
            except OSError:
                here.close()
                return
            if child == 0:
                self._run(here, there, parent)
        self._children.append(child)
        try:
            self._pipes.register(here, EVENT_READ)
        except OSError:  # raised, since that process has taken makers already
            here.close()
            raise

    def _run(self, here: IO[bytes], there: IO[bytes], parent: int) -> NoReturn:
        """Make and send what nobody else makes, in a fork."""
        status = 1
        try:
            here.close()  # or it would wait for itself to read, were nobody else left
            _end_with(parent)
            for place in self.places():
                there.write(_answer(place, self._makers[place]))
                there.flush()
            there.write(LAST)
            there.flush()
            status = 0
        finally:
            os._exit(status)

    def received(self, timeout: float | None) -> Iterator[tuple[int, Any]]:
        """What they have sent by now; with ``timeout`` None, all that they send until their last result."""
        while self._pipes.get_map() and (ready := self._pipes.select(timeout)):
            for pipe in (cast(Any, key.fileobj) for key, _ in ready):
                try:
                    place, made = pickle.load(pipe)
                except (EOFError, OSError, pickle.UnpicklingError):  # between two answers, or in one
                    text = "a process that made pages ended before it had done so"
                    raise ChildProcessError(text) from None
                if place is None:
                    self._pipes.unregister(pipe)
                    pipe.close()
                    continue
                if isinstance(made, Exception):
                    raise made
                yield place, made


def _answer(place: int, maker: Callable[[], Any]) -> bytes:
    """A place with what its maker makes, or with what went wrong."""
    try:
        made = maker()
    except Exception as error:
        made = error
    return pickle.dumps((place, made), pickle.HIGHEST_PROTOCOL)


def _end_with(parent: int) -> None:
    """End this process when its parent ends, in whatever way (Linux ``prctl``), or else with its answer."""
    if sys.platform == "linux":
        import ctypes  # only for such a process

        ctypes.CDLL(None).prctl(PR_SET_PDEATHSIG, signal.SIGKILL)
    if os.getppid() != parent:  # it ended before that was said
        os._exit(1)
