"""``bowlbook import``: a spreadsheet's rows as entries; what is not certain is asked, and never guessed."""

import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import NoReturn

import click

from bowlbook.book.book import Book
from bowlbook.book.folder import Folder
from bowlbook.book.read_book import book_of
from bowlbook.book.replacing import NotReplaced, create_all, finish
from bowlbook.book.shelf_folder import read_folder
from bowlbook.cache.cache import Cache
from bowlbook.checks.day import today
from bowlbook.commands import printer
from bowlbook.commands.start import is_interactive
from bowlbook.entries.partial import Unread
from bowlbook.importing.columns import Matched, column_findings, is_person, kind_of, match_columns
from bowlbook.importing.imported import Imported, Target, read_rows
from bowlbook.importing.said import LEAVE_OUT, ROW_KINDS, Said, read_said
from bowlbook.importing.table import Table, read_table
from bowlbook.importing.words import fields
from bowlbook.reading.amount import counted
from bowlbook.reading.bare_name import bare_name
from bowlbook.reading.finding import Finding, finding_of
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.place import Place
from bowlbook.reading.refusal import Refusal


@click.command("import")
@click.argument("table_file", metavar="TABLE", type=printer.PATH)
@printer.recipes_option
@click.option("--rows", type=click.Choice(list(ROW_KINDS)), help="What a row is; else seen from the columns.")
@click.option("--sheet", metavar="NAME", help="Which sheet, where several have something in them.")
@click.option(
    "--columns",
    "columns_file",
    type=printer.PATH,
    metavar="MAP.yml",
    help="Says which column is which field, for names that are not known.",
)
@click.option("--dry-run", is_flag=True, help="Print what would be written, and write nothing.")
@click.option("--json", "as_json", is_flag=True, help="Print what was read, asked and left out as JSON.")
def command(
    table_file: Path,
    recipes: Path,
    rows: str | None,
    sheet: str | None,
    columns_file: Path | None,
    dry_run: bool,
    as_json: bool,
) -> None:
    """Read recipes or products from a spreadsheet into entries.

    TABLE ends in .csv, .xlsx or .ods; a row is a recipe, or a product. What is certain becomes an entry; what
    is not is left as a gap, ???, and listed with its question. Nothing is written over, and all files are
    written or none. Exit 1 where anything was asked or left out.
    """
    said = _said(columns_file, rows, sheet)
    _finish(recipes)
    folder = read_folder(recipes)
    into = Target(recipes, folder, _book_of(folder), today())
    try:
        table = read_table(table_file, said.sheet)
        kind = kind_of(table, said)
        matched = match_columns(table, kind, said)
    except Refusal as refusal:
        _stop([finding_of(refusal, Place(str(table_file), *refusal.at))])
    if columns_file is None and not as_json and is_interactive():
        said, matched = _confirmed(table, matched, said)
    findings = column_findings(table_file, matched)
    if any(each.severity == "error" for each in findings):
        _stop(findings)

    # Read again after each answer, which may settle cells of other rows and columns too.
    def read(said: Said) -> Imported:
        matched = match_columns(table, kind, said)
        return read_rows(table_file, table, matched, said, into)

    made = read(said)
    if columns_file is None and not as_json and is_interactive():
        made = _answered(made, said, read)
    made.findings = [*findings, *made.findings]
    if not dry_run and made.texts:
        with printer.stopped_by(NotReplaced):
            create_all(recipes, {path: text.encode("utf-8") for path, (_, text) in made.texts.items()})
    if as_json:
        printer.print_json(_data(made, written=not dry_run))
    else:
        _print(made, matched, written=not dry_run)
    sys.exit(1 if made.findings else 0)


def _stop(findings: list[Finding]) -> NoReturn:
    printer.print_findings(findings, err=True)
    printer.stop("Nothing was written.")


def _said(columns_file: Path | None, rows: str | None, sheet: str | None) -> Said:
    said = Said()
    if columns_file is not None:
        said, findings = read_said(columns_file)
        if findings:
            _stop(findings)
    return said._replace(rows=rows or said.rows, sheet=sheet or said.sheet)


def _finish(recipes: Path) -> None:
    """Finish what an earlier run was killed in."""
    with printer.stopped_by(NotReplaced):
        left = finish(recipes) if recipes.is_dir() else None
    if left is not None:
        printer.echo("An earlier run, interrupted while it was writing, was finished first.", err=True)


def _book_of(folder: Folder) -> Book:
    """The book as far as it can be read. What a table says depends on its house: without a currency, stop."""
    reading = book_of(folder, Cache())
    book = reading.book if reading.unfinished is None else reading.unfinished[0]
    with suppress(Unread):
        if book is not None and book.house.currency:
            return book
    _stop([each for each in reading.findings if each.severity == "error"])


def _confirmed(table: Table, matched: Matched, said: Said) -> tuple[Said, Matched]:
    """The columns as a person at the terminal says them; every known one is shown first."""
    for column in matched.columns:
        printer.echo(f"{column.header}: {column.field}")
    known = [*fields(matched.kind), LEAVE_OUT]
    answers = dict(said.columns)
    for _, header, why in matched.unknown:
        if not header or is_person(header):
            continue
        question = f"{printer.visible(header)}: which field? ({printer.visible(why)} Empty: leave out)"
        while True:
            answer = click.prompt(question, default="", show_default=False).strip() or LEAVE_OUT
            if answer.rstrip(" 123456789") in known:
                break
            printer.echo(did_you_mean(answer, known) or f"Fields: {', '.join(known)}.", err=True)
        answers[bare_name(header)] = answer
    if not click.confirm("Is each column what is said here?"):
        printer.stop("Nothing was written. Say them in a file for --columns.")
    said = said._replace(columns=answers)
    return said, match_columns(table, matched.kind, said)


def _answered(made: Imported, said: Said, read: Callable[[Said], Imported]) -> Imported:
    """What is made of the table when each question that settles many cells was asked at the terminal."""
    left_open: set[str] = set()
    while True:
        question = next((each for each in made.questions.values() if each.text not in left_open), None)
        if question is None:
            return made
        choice = ", ".join(question.answers)
        text = f"{printer.visible(question.text)} ({choice}. Empty: leave it open)"
        answer = click.prompt(text, default="", show_default=False).strip()
        if answer in question.answers:
            said = question.answered(said, answer)
            made = read(said)
        elif not answer:
            left_open.add(question.text)
        else:
            printer.echo(did_you_mean(answer, question.answers) or f"Answers: {choice}.", err=True)


def _print(made: Imported, matched: Matched, *, written: bool) -> None:
    """The table of what is written, then the findings, then how many of each."""
    rows = [
        (f"row {draft.row}", path.parent.name + "/" + path.name, str(draft.data["name"]), _open(draft.gaps))
        for path, (draft, _) in sorted(made.texts.items(), key=lambda each: (each[1][0].row, str(each[0])))
    ]
    widths = [max((len(row[at]) for row in rows), default=0) for at in range(3)]
    for row in rows:
        cells = [cell.ljust(width) for cell, width in zip(row, widths, strict=False)]
        printer.echo("  ".join([*cells, row[3]]))
    if made.findings:
        printer.print_findings(made.findings, full=True)  # each is a question that nobody asks again
    if matched.left_out:
        printer.echo(f"Columns left out, as said: {', '.join(matched.left_out)}.")
    open_ones = sum(bool(draft.gaps) for draft, _ in made.texts.values())
    printer.echo(
        f"{counted(made.rows, 'row')}: {counted(len(made.texts), 'entry', 'entries')} "
        f"{'written' if written else 'would be written'}, {open_ones} of them with gaps."
    )
    if written and made.texts:
        printer.echo("Now look through them, then: bowlbook check")


def _open(gaps: list[str]) -> str:
    return f"to fill in: {', '.join(dict.fromkeys(gaps))}" if gaps else "complete"


OF_PLACE = ("path", "line")
"""What a finding says of its place in a file, in the place of which a table's rows are given."""


def _data(made: Imported, *, written: bool) -> dict[str, object]:
    """The same as data. ``written``: whether the entries are files now. A finding has all its ``rows``."""
    return {
        "rows": made.rows,
        "written": written,
        "entries": [
            {
                "row": draft.row,
                "kind": draft.kind,
                "id": draft.id,
                "path": path.as_posix(),
                "gaps": list(dict.fromkeys(draft.gaps)),
            }
            for path, (draft, _) in made.texts.items()
        ],
        "findings": [
            {
                "row": each.place.line,
                "rows": made.questions[each].rows if each in made.questions else [each.place.line],
                **{key: value for key, value in printer.finding_row(each).items() if key not in OF_PLACE},
            }
            for each in made.findings
        ],
    }
