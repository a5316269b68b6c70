"""``bowlbook check``: every mistake of a book in one run."""

import sys
from pathlib import Path

import click

from generator.checks.day import today
from generator.checks.judge import errors_of, found_in
from generator.commands.printer import FORMS, print_findings, progress, recipes_option


@click.command()
@recipes_option
@click.option("--strict", is_flag=True, help="Count warnings as errors.")
@click.option(
    "--format",
    "form",
    type=click.Choice(FORMS),
    default="text",
    show_default=True,
    help="How findings are printed: text to read, json for programs, github for the lines of a pull request.",
)
@click.option("--json", "as_json", is_flag=True, help="The same as --format json.")
def command(recipes: Path, strict: bool, form: str, as_json: bool) -> None:
    """Read the whole book and report every mistake in it, each at its line."""
    with progress("Reading") as tell:
        findings = found_in(recipes, today(), tell)
    print_findings(findings, "json" if as_json else form)
    sys.exit(1 if errors_of(findings, strict=strict) else 0)
