"""Two processes share a work: each hears the other out, and neither waits for one that has ended."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from generator.book.twin import Twin, in_two

LARGE = 3_000_000
"""Bytes: more than any pipe holds."""


@pytest.mark.parametrize("sizes", [(0, 0), (1, 2), (LARGE, 1), (1, LARGE), (LARGE, LARGE)])
def test_what_they_tell_each_other(sizes: tuple[int, int]) -> None:
    def work(twin: Twin) -> tuple[bytes | None, bytes | None]:
        told = twin.exchange((b"2" if twin.second else b"1") * sizes[twin.second])
        if twin.second:
            twin.tell(told or b"")
            return None, None
        return told, twin.told()

    assert in_two(work) == (b"2" * sizes[1], b"1" * sizes[0])


@pytest.mark.parametrize("code", [0, 3, None])
def test_a_second_that_ends_without_a_word(code: int | None) -> None:
    def work(twin: Twin) -> bytes | None:
        if twin.second:
            os.kill(os.getpid(), signal.SIGKILL) if code is None else os._exit(code)
        answer = twin.exchange(b"1" * LARGE)
        twin.tell(b"anybody there?")
        return answer

    assert in_two(work) is None


def test_a_fault_of_the_first_is_raised_and_the_second_ends() -> None:
    seen = []

    def work(twin: Twin) -> None:
        if twin.second:
            twin.told()
        seen.append(1)
        raise ValueError("of the first")

    with pytest.raises(ValueError, match="of the first"):
        in_two(work)
    assert seen == [1]
    with pytest.raises(ChildProcessError):  # none is left to be waited for
        os.waitpid(-1, os.WNOHANG)


def test_a_fault_of_the_second_is_for_the_first_to_find() -> None:
    def work(twin: Twin) -> bytes | None:
        if twin.second:
            raise SystemExit(0)
        return twin.told()

    assert in_two(work) is None


def test_where_no_second_can_be_had_the_first_does_without(monkeypatch: pytest.MonkeyPatch) -> None:
    def none() -> int:
        raise BlockingIOError("no more processes")

    monkeypatch.setattr("os.fork", none)
    open_before = len(list(Path("/proc/self/fd").iterdir()))
    assert in_two(lambda twin: (twin.second, twin.exchange(b"1" * LARGE), twin.told())) == (False, None, None)
    assert len(list(Path("/proc/self/fd").iterdir())) == open_before


def test_where_the_end_of_a_second_is_not_told() -> None:
    """As under a program that lets nobody wait for its children: the system forgets each that ends."""
    usual = signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    try:
        assert in_two(lambda twin: twin.tell(b"here") if twin.second else twin.told()) == b"here"
    finally:
        signal.signal(signal.SIGCHLD, usual)


LEFT_ALONE = """
import os, signal
from generator.book.twin import in_two

def work(twin):
    if not twin.second:
        os.kill(os.getpid(), signal.SIGKILL)
    {0}
    twin.told() if {1} else twin.tell(b"x" * 10_000_000)

in_two(work)
"""


@pytest.mark.parametrize("hears", [True, False])
@pytest.mark.parametrize("before", ["pass", "import time; time.sleep(0.3)"])
def test_a_second_whose_first_was_killed_ends(hears: bool, before: str) -> None:
    """Whoever reads its output waits for both."""
    done = subprocess.run(
        [sys.executable, "-c", LEFT_ALONE.format(before, hears)],
        env={**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])},
        stdout=subprocess.PIPE,
        timeout=60,
        check=False,
    )
    assert done.returncode == -signal.SIGKILL
