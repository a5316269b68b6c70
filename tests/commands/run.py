"""One command of bowlbook, run in this process."""

import json
from inspect import signature
from pathlib import Path
from typing import Any

from click.testing import CliRunner, Result

from bowlbook.commands import main


def invoke(words: list[str]) -> Result:
    """Run a command and keep whatever it raises; standard error is apart, also in click before 8.2."""
    apart = {"mix_stderr": False} if "mix_stderr" in signature(CliRunner).parameters else {}
    return CliRunner(**apart).invoke(main, words)


def run(*words: str, recipes: Path | None = None) -> Result:
    """Run a command. An exception that is not an exit is a fault of the program, and fails the test."""
    where = [] if recipes is None else ["--recipes", str(recipes)]
    result = invoke([*words[:1], *where, *words[1:]])
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


def refused(*words: str, recipes: Path | None = None) -> str:
    """What a command that is used wrongly says on standard error, on one line: exit code 2, and no answer."""
    result = run(*words, recipes=recipes)
    assert result.exit_code == 2, (words, result.output)
    assert result.stdout == "", words
    return " ".join(result.stderr.split())


def run_json(*words: str, recipes: Path) -> Any:
    """Run a command that answers in JSON, and read its answer."""
    result = run(*words, "--json", recipes=recipes)
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)
