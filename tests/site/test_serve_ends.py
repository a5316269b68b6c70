"""The preview ends when it is asked to, and takes its site with it."""

import os
import signal
import subprocess
import threading
from itertools import takewhile
from pathlib import Path

import pytest
from small_site import house_config

from bowlbook.commands.group import PROGRAM
from checks.small_book import SmallBook
from systems import needs_signals

OTHERS = ("SIGINT", "SIGHUP")
LONG = 120.0
"""Seconds after which a preview that does not end is given up."""


def _default_signals() -> None:
    """As at a terminal: a program that is begun in the background of a shell ignores ctrl-c."""
    for each in map(signal.Signals.__getitem__, ("SIGTERM", *OTHERS)):
        signal.signal(each, signal.SIG_DFL)


@pytest.mark.long
@pytest.mark.parametrize("asked", ["SIGTERM", *OTHERS])
@needs_signals
def test_nothing_is_left(book: SmallBook, tmp_path: Path, asked: str) -> None:
    """MkDocs serves a site from a folder in the system's own for passing things."""
    passing = tmp_path / "passing"
    passing.mkdir()
    words = ["serve", f"--config={house_config(book)}", f"--recipes={book.root}", "--address=127.0.0.1:0"]
    with subprocess.Popen(
        [*PROGRAM, *words],
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "TMPDIR": str(passing)},
        preexec_fn=_default_signals,
    ) as serving:
        assert serving.stderr is not None
        late = threading.Timer(LONG, serving.kill)
        late.start()
        begun = list(takewhile(lambda line: "Serving on" not in line, serving.stderr))
        assert list(passing.iterdir()), begun
        serving.send_signal(signal.Signals[asked])
        said = serving.stderr.read()
        late.cancel()
    assert (serving.returncode, list(passing.iterdir())) == (0, []), said
