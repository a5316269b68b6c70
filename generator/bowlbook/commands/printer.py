"""Output of all commands: findings, texts and progress.

Only this module decides which characters reach a terminal, who sees private values, and how many findings of
one code are shown.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from bowlbook.commands import escaped
from bowlbook.reading.amount import counted
from bowlbook.reading.finding import Finding, finding_text
from bowlbook.reading.guard import CONTROL
from bowlbook.reading.refusal import Refusal

if TYPE_CHECKING:
    from bowlbook.book.book import Book
    from bowlbook.book.read_book import Progress

PATH = click.Path(path_type=Path)

recipes_option = click.option(
    "--recipes", type=PATH, default="recipes", show_default=True, metavar="DIR", help="The book's folder."
)

group_option = click.option(
    "--all",
    "group",
    type=click.Path(path_type=Path, exists=True, file_okay=False),
    metavar="GROUP",
    is_eager=True,  # read before --config, whose default need not exist then
    help="Every book of a group: each folder in GROUP with a folder recipes in it.",
)


def _existing(ctx: click.Context, param: click.Parameter, config_file: Path) -> Path:
    """Check that the configuration exists. Not with ``--all``: each book of a group has its own."""
    if ctx.params.get("group") is None and not config_file.is_file():
        raise click.BadParameter(f'There is no file "{config_file}".', ctx, param)
    return config_file


config_option = click.option(
    "--config",
    "config_file",
    type=PATH,
    callback=_existing,
    default="mkdocs.yml",
    show_default=True,
    metavar="FILE",
    help="The site's configuration.",
)


def whole_book(recipes: Path) -> Book:
    """The book of a folder. Where it has errors, prints them and exits with 1."""
    from bowlbook.book.read_book import read_book
    from bowlbook.cache.cache import open_cache

    with open_cache(recipes) as cache:
        reading = read_book(recipes, cache=cache)
    # Figures from a book with errors could be wrong without a sign of it.
    errors = [finding for finding in reading.findings if finding.severity == "error"]
    if reading.book is None or errors:
        print_findings(errors, err=True)
        sys.exit(1)
    return reading.book


FORMATS = ("text", "json", "github")
MESSAGE, PROPERTY = "%\r\n", "%\r\n:,"
"""Characters that are percent-encoded in an annotation's message, and in its properties."""


def echo(text: str, *, err: bool = False, nl: bool = True) -> None:
    """Print a text that may contain others' words, such as a file's name, with `visible` characters only."""
    click.echo(visible(text), err=err, nl=nl)


def print_json(data: object, *, err: bool = False) -> None:
    """Print plain data as JSON."""
    import json  # only where it is asked for

    echo(json.dumps(data, indent=2, ensure_ascii=False), err=err)


def stop(why: str) -> NoReturn:
    """Say on standard error why the command goes no further, and end it with 1."""
    echo(why, err=True)
    sys.exit(1)


@contextmanager
def stopped_by(*kinds: type[Exception]) -> Iterator[None]:
    """`stop` at errors of these kinds."""
    try:
        yield
    except kinds as error:
        stop(str(error))


@contextmanager
def wrong_use(
    *kinds: type[Exception], usage_error: type[click.UsageError] = click.UsageError
) -> Iterator[None]:
    """Raise ``usage_error`` for errors of these kinds: what was asked for cannot be done.

    In an option's callback that is `click.BadParameter`, which names the option.
    """
    try:
        yield
    except kinds as error:
        mend = error.mend if isinstance(error, Refusal) else ""
        raise usage_error(f"{error} {mend}".rstrip()) from error


def visible(text: str) -> str:
    """The text with control and direction characters, except tabs and line ends, as their \\u codes.

    Otherwise a text could move a terminal's cursor, colour it or reverse its lines. The codes are those of
    JSON (RFC 8259, 7), so that JSON stays the same data.
    """
    return CONTROL.sub(lambda sign: escaped(sign[0]), text)


MANY, FEW = 40, 5
"""Over this number, findings are grouped by code; and how many of each code are shown then."""
HOW_TO_SEE_ALL = "To see every one of them: bowlbook check --full"

full_option = click.option("--full", is_flag=True, help="Print every finding, however many of one kind.")


def print_findings(
    findings: list[Finding], form: str = "text", *, err: bool = False, full: bool = False
) -> None:
    """The findings in one of `FORMATS`, in order; as text also how many there are.

    As text many findings are grouped by code, a few of each, unless ``full``; the other forms have all.
    Private values are shown only as text on a terminal: other output may be stored or sent on.
    """
    if form == "json":
        print_json([finding_row(finding) for finding in findings], err=err)
        return
    if form == "text":
        shown = [finding.unmasked() for finding in findings] if _at_a_terminal(err) else findings
        lines = [*map(finding_text, shown)] if full or len(shown) <= MANY else _grouped(shown)
        errors = sum(finding.severity == "error" for finding in findings)
        lines.append(f"{counted(errors, 'error')}, {counted(len(findings) - errors, 'warning')}.")
    else:
        lines = [_annotation(finding) for finding in findings]
    if lines:
        echo("\n".join(lines), err=err)


def _at_a_terminal(err: bool) -> bool:
    """Whether a person reads the output: it is a terminal, and not that of a CI run."""
    stream = sys.stderr if err else sys.stdout
    return stream is not None and stream.isatty() and not os.environ.get("CI")


def _grouped(findings: list[Finding]) -> list[str]:
    """The first few findings of each code, errors before warnings, and how many more there are of each."""
    by_code: dict[tuple[str, str], list[Finding]] = {}
    for finding in findings:
        by_code.setdefault((finding.severity, finding.code), []).append(finding)
    lines: list[str] = []
    for (_, code), group in sorted(by_code.items(), key=lambda each: each[0][0]):
        lines += map(finding_text, group[:FEW])
        if len(group) > FEW:
            lines.append(f"… and {len(group) - FEW:,} more of {code}")
    return [*lines, HOW_TO_SEE_ALL]


def finding_row(finding: Finding) -> dict[str, str | int]:
    """A finding as plain data."""
    return {
        **finding.place._asdict(),
        "code": finding.code,
        "severity": finding.severity,
        "message": finding.message,
        "mend": finding.mend,
    }


def _annotation(finding: Finding) -> str:
    """A finding as an annotation of its line in a pull request.

    The workflow command of GitHub Actions, ``::error file=…,line=…,col=…,title=…::message``. ``%``, line ends
    and, in its properties, ``:`` and ``,`` are percent-encoded, so that no text can start another command.
    """
    place = finding.place
    properties = {"file": place.path, "line": place.line, "col": place.column, "title": finding.code}
    named = ",".join(f"{key}={_percent_encoded(str(value), PROPERTY)}" for key, value in properties.items())
    return f"::{finding.severity} {named}::{_percent_encoded(f'{finding.message} {finding.mend}', MESSAGE)}"


def _percent_encoded(text: str, signs: str) -> str:
    return "".join(f"%{ord(sign):02X}" if sign in signs else sign for sign in text)


@contextmanager
def progress(doing: str) -> Iterator[Progress]:
    """Show the progress of a long operation on a terminal, and clear it at the end."""
    # None where the process was started with it closed.
    shown = sys.stderr is not None and sys.stderr.isatty()
    process = os.getpid()  # others that share in the work say nothing

    def report_progress(done: int, of: int) -> None:
        # Writing each step would take longer than the work.
        if shown and os.getpid() == process and (done % 25 == 0 or done == of):
            click.echo(f"\r{doing} {done} of {of}", nl=False, err=True)

    try:
        yield report_progress
    finally:
        if shown:
            click.echo("\r" + " " * 60 + "\r", nl=False, err=True)
