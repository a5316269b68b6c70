"""Findings and progress on the terminal."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.reading.amount import counted
from generator.reading.finding import Finding, finding_text

if TYPE_CHECKING:
    from generator.book.book import Book
    from generator.book.read_book import Progress

recipes_option = click.option(
    "--recipes",
    type=click.Path(path_type=Path),
    default=Path("recipes"),
    show_default=True,
    metavar="DIR",
    help="The book's folder.",
)


group_option = click.option(
    "--all",
    "group",
    type=click.Path(path_type=Path, exists=True, file_okay=False),
    metavar="GROUP",
    is_eager=True,  # before --config, whose default need not be there then
    help="Every book of a group: each folder in GROUP with a folder recipes in it.",
)


def _there(ctx: click.Context, param: click.Parameter, config_file: Path) -> Path:
    """The configuration; a group's books have theirs."""
    if ctx.params.get("group") is None and not config_file.is_file():
        raise click.BadParameter(f'There is no file "{config_file}".', ctx, param)
    return config_file


config_option = click.option(
    "--config",
    "config_file",
    type=click.Path(path_type=Path),
    callback=_there,
    default=Path("mkdocs.yml"),
    show_default=True,
    metavar="FILE",
    help="The site's configuration.",
)


def whole_book(recipes: Path) -> Book:
    """The book of a folder; where it has errors they are printed, and the command ends with 1."""
    from generator.book.read_book import read_book

    reading = read_book(recipes)
    errors = [finding for finding in reading.findings if finding.severity == "error"]
    if reading.book is None or errors:
        print_findings(errors, err=True)
        sys.exit(1)
    return reading.book


FORMS = ("text", "json", "github")
MESSAGE, PROPERTY = "%\r\n", "%\r\n:,"
"""What is coded in an annotation's message, and in its properties."""


def print_findings(findings: list[Finding], form: str = "text", *, err: bool = False) -> None:
    """Every finding in one of `FORMS`, in order; as text also how many there are."""
    if form == "json":
        import json

        rows = [_row(finding) for finding in findings]
        click.echo(json.dumps(rows, indent=2, ensure_ascii=False), err=err)
        return
    lines = [finding_text(finding) if form == "text" else _annotation(finding) for finding in findings]
    if form == "text":
        errors = sum(finding.severity == "error" for finding in findings)
        lines.append(f"{counted(errors, 'error')}, {counted(len(findings) - errors, 'warning')}.")
    if lines:
        click.echo("\n".join(lines), err=err)


def _row(finding: Finding) -> dict[str, str | int]:
    return {
        "path": finding.place.path,
        "line": finding.place.line,
        "column": finding.place.column,
        "code": finding.code,
        "severity": finding.severity,
        "message": finding.message,
        "mend": finding.mend,
    }


def _annotation(finding: Finding) -> str:
    """One line that puts a finding on its line of a pull request.

    The workflow command of GitHub Actions, ``::error file=…,line=…,col=…,title=…::message``. ``%``, line ends
    and, in its properties, ``:`` and ``,`` are percent codes, so that no text begins another command.
    """
    place = finding.place
    properties = {"file": place.path, "line": place.line, "col": place.column, "title": finding.code}
    named = ",".join(f"{key}={_coded(str(value), PROPERTY)}" for key, value in properties.items())
    return f"::{finding.severity} {named}::{_coded(f'{finding.message} {finding.mend}', MESSAGE)}"


def _coded(text: str, signs: str) -> str:
    return "".join(f"%{ord(sign):02X}" if sign in signs else sign for sign in text)


@contextmanager
def progress(doing: str) -> Iterator[Progress]:
    """Shows how far a long piece of work has come, on a terminal only, and wipes it at the end."""
    shown = sys.stderr is not None and sys.stderr.isatty()  # None: begun with it closed

    def tell(done: int, of: int) -> None:
        if shown and (done % 25 == 0 or done == of):
            click.echo(f"\r{doing} {done} of {of}", nl=False, err=True)

    try:
        yield tell
    finally:
        if shown:
            click.echo("\r" + " " * 60 + "\r", nl=False, err=True)
