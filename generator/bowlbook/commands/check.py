"""``bowlbook check``: every mistake of a book in one run."""

import sys
from pathlib import Path

import click

from bowlbook.book.shelf_folder import read_folder
from bowlbook.cache.cache import open_cache
from bowlbook.checks.day import today
from bowlbook.checks.judge import Judgement, findings_in
from bowlbook.commands import printer
from bowlbook.commands.schema import refresh


@click.command()
@printer.recipes_option
@click.option("--strict", is_flag=True, help="Count warnings as errors.")
@click.option(
    "--format",
    "form",
    type=click.Choice(printer.FORMATS),
    default="text",
    show_default=True,
    help="How findings are printed: text to read, json for programs, github for the lines of a pull request.",
)
@click.option("--json", "as_json", is_flag=True, help="The same as --format json.")
@printer.full_option
@printer.group_option
def command(recipes: Path, strict: bool, form: str, as_json: bool, full: bool, group: Path | None) -> None:
    """Read the whole book and report every mistake in it, each at its line."""
    form = "json" if as_json else form
    if group is not None:
        from bowlbook.commands.group import check_each, only_the_group  # only for a group

        only_the_group("recipes")
        sys.exit(0 if check_each(group, form, strict=strict, full=full) else 1)
    with printer.progress("Reading") as report_progress, open_cache(recipes) as cache:
        folder = read_folder(recipes)
        findings = findings_in(recipes, folder, today(), report_progress, cache)
    refresh(recipes, folder)
    printer.print_findings(findings, form, full=full)
    sys.exit(1 if Judgement(None, findings).errors(strict=strict) else 0)
