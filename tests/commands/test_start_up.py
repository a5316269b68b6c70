"""Start-up stays light: what a command does not need, it does not import."""

import json
import subprocess
import sys

import pytest
from checks.small_book import SmallBook

HEAVY = ("mkdocs", "material", "pydantic", "yaml", "babel", "jinja2", "pint", "markdown", "nh3")

PROGRAM = """\
import json, sys
from generator.commands import main
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
    assert "generator" in modules
    assert modules & set(HEAVY) == set()


def test_check_and_mix_import_no_site_engine(book: SmallBook) -> None:
    for words in (("check",), ("mix", "soft-clay", "--batch", "1oz", "--json")):
        modules = imported(*words, "--recipes", str(book.root))
        assert "pydantic" in modules  # it did read the book
        assert modules & {"mkdocs", "material", "jinja2", "pint", "markdown", "nh3"} == set(), words
