"""What a terminal or a pipe cannot show is escaped, and no command ends in a traceback for it."""

import json
import os
import subprocess
import sys

import pytest

from checks.small_book import CLAY_FILE, SmallBook
from seeds import with_long

NAME = "Soft “clay” → ő 土 🧴"


def said(book: SmallBook, encoding: str, *words: str) -> tuple[int, str, str]:
    """How a command ends where output has this encoding, and what it prints."""
    done = subprocess.run(
        [sys.executable, "-m", "bowlbook.commands", *words, "--recipes", str(book.root)],
        env={**os.environ, "PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"},
        capture_output=True,
        check=False,
    )
    shown = "utf-8" if encoding == "ascii" else encoding  # click writes UTF-8 where only ASCII is offered
    return done.returncode, done.stdout.decode(shown), done.stderr.decode(shown)


@pytest.mark.long
@pytest.mark.parametrize("encoding", ["cp1252", "ascii", "cp437", "utf-8"])
def test_json_is_whole_on_every_code_page(book: SmallBook, encoding: str) -> None:
    book.edit(CLAY_FILE, "name: Plain clay", f"name: {json.dumps(NAME, ensure_ascii=False)}")
    book.edit(CLAY_FILE, "form: clay", "form: clai")
    code, out, err = said(book, encoding, "check", "--json")
    assert (code, err) == (1, "")
    assert [row["code"] for row in json.loads(out)] == ["unknown-word"]
    code, out, err = said(book, encoding, "check")
    assert code == 1 and "Traceback" not in err and "unknown-word" in out


@pytest.mark.parametrize("encoding", with_long(["cp1252"], ["ascii", "utf-8"]))
def test_a_text_comes_back_as_it_was_written(book: SmallBook, encoding: str) -> None:
    """The finding quotes what was written, and JSON decodes the escapes."""
    book.edit(CLAY_FILE, "form: clay", f"form: {json.dumps(NAME, ensure_ascii=False)}")
    code, out, _ = said(book, encoding, "check", "--json")
    assert code == 1 and NAME in json.loads(out)[0]["message"]
