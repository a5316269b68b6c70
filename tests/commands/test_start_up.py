"""Start-up stays light: what a command does not need, it does not import."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from checks.small_book import SmallBook
from seeds import with_long

SITE = ("mkdocs", "material", "jinja2", "pint", "markdown", "nh3")
HEAVY = (*SITE, "yaml", "babel")

PROGRAM = """\
import json, sys
from bowlbook.commands import main
try:
    main({words!r}, standalone_mode=False)
except SystemExit as stop:
    assert not stop.code, stop.code
print(json.dumps(sorted({{name.partition(".")[0] for name in sys.modules}})))
"""


def imported(*words: str) -> set[str]:
    """The top-level modules that a command has loaded when it is done, in a process of its own."""
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM.format(words=list(words))], capture_output=True, text=True, check=True
    )
    return set(json.loads(done.stdout.splitlines()[-1]))


@pytest.mark.parametrize("words", [("--help",), ("--version",)])
def test_help_and_version_import_nothing_heavy(words: tuple[str, ...]) -> None:
    modules = imported(*words)
    assert "bowlbook" in modules
    assert modules & set(HEAVY) == set()


CHECK, MIX = ("check",), ("mix", "soft-clay", "--batch", "1oz", "--json")


@pytest.mark.parametrize("command", [CHECK, MIX])
def test_check_and_mix_import_no_site_engine(book: SmallBook, command: tuple[str, ...]) -> None:
    modules = imported(*command, "--recipes", str(book.root))
    assert "yaml" in modules  # it did read the book
    assert modules & set(SITE) == set()


@pytest.mark.parametrize("command", with_long([CHECK], [MIX]))
def test_a_book_that_is_kept_is_read_without_the_libraries_that_read(
    book: SmallBook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: tuple[str, ...]
) -> None:
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path))
    assert "yaml" in imported("check", "--recipes", str(book.root))
    assert imported(*command, "--recipes", str(book.root)) & set(HEAVY) == set()


@pytest.mark.long
def test_a_reader_that_goes_away_is_no_traceback(book: SmallBook) -> None:
    for number in range(2000):
        book.write(f"products/foil-{number}.yml", "name: Foil\n")
    checking = subprocess.Popen(
        [sys.executable, "-m", "bowlbook.commands", "check", "--recipes", str(book.root)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert checking.stdout is not None and checking.stderr is not None
    checking.stdout.readline()
    checking.stdout.close()
    printed = checking.stderr.read()
    checking.stderr.close()
    assert checking.wait() != 0 and "Traceback" not in printed
