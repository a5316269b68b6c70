"""The preview ends when it is asked to, and takes its site with it."""

import os
import signal
import subprocess
import threading
from itertools import takewhile
from pathlib import Path

import pytest

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
    passing, docs, config = (tmp_path / name for name in ("passing", "docs", "mkdocs.yml"))
    passing.mkdir()
    docs.mkdir()
    (docs / "words.md").write_text("# Words\n", encoding="utf-8")
    config.write_text(
        "site_name: A book\ntheme: {name: material, font: false}\nplugins: [bowlbook]\n", encoding="utf-8"
    )
    words = ["serve", f"--config={config}", f"--recipes={book.root}", "--address=127.0.0.1:0"]
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
