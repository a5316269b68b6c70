"""A command whose streams are closed or full ends as it should, and without a traceback."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from bowlbook.commands.group import PROGRAM
from checks.small_book import SmallBook
from seeds import rows_with_long
from systems import needs_signals

FULL = Path("/dev/full")


def code_of(*words: str, closed: tuple[int, ...]) -> int:
    """The exit code of a command that begins with these streams closed."""
    program = (
        f"import os, sys; [os.close(each) for each in {closed}]; os.execv(sys.executable, {PROGRAM + words})"
    )
    quiet = subprocess.DEVNULL
    command = [sys.executable, "-c", program]
    return subprocess.run(command, stdin=quiet, stdout=quiet, stderr=quiet, check=False).returncode


@pytest.mark.long
@pytest.mark.parametrize("closed", [(1,), (0, 1, 2), (0,), (2,)])
@needs_signals
def test_closed_streams_change_nothing_of_the_answer(book: SmallBook, closed: tuple[int, ...]) -> None:
    assert code_of("check", f"--recipes={book.root}", closed=closed) == 0
    book.add("blends/soft-clay.yml", "nonsense: 1\n")
    assert code_of("check", f"--recipes={book.root}", closed=closed) == 1


@pytest.mark.skipif(not FULL.exists(), reason="a system without a full device")
@pytest.mark.parametrize(
    ("word", "out"),
    rows_with_long(
        [("--version", "both"), ("check", "stdout")],
        [("--version", "stdout"), ("check", "both"), ("--help", "stdout"), ("--help", "both")],
    ),
)
def test_no_room_for_the_answer(book: SmallBook, word: str, out: str) -> None:
    with FULL.open("w") as full:
        done = subprocess.run(
            [*PROGRAM, word, *([f"--recipes={book.root}"] if word == "check" else [])],
            stdout=full,
            stderr=subprocess.PIPE if out == "stdout" else full,
            text=True,
            env={**os.environ, "LC_ALL": "C"},
            check=False,
        )
    assert done.returncode == 1
    if out == "stdout":
        assert done.stderr == "Not all could be written: No space left on device.\n"
