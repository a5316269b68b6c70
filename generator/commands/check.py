"""``bowlbook check``: every mistake of a book in one run."""

import sys
from pathlib import Path

import click

from generator.checks.day import today
from generator.checks.judge import judge
from generator.commands.printer import print_findings, progress, recipes_option


@click.command()
@recipes_option
@click.option("--strict", is_flag=True, help="Count warnings as errors.")
@click.option("--json", "as_json", is_flag=True, help="Print the findings as JSON.")
def command(recipes: Path, strict: bool, as_json: bool) -> None:
    """Read the whole book and report every mistake in it, each at its line."""
    with progress("Reading") as tell:
        judgement = judge(recipes, today(), tell)
    if as_json:
        import json

        rows = [
            {
                "path": finding.place.path,
                "line": finding.place.line,
                "column": finding.place.column,
                "code": finding.code,
                "severity": finding.severity,
                "message": finding.message,
                "mend": finding.mend,
            }
            for finding in judgement.findings
        ]
        click.echo(json.dumps(rows, indent=2, ensure_ascii=False))
    else:
        print_findings(judgement.findings)
    sys.exit(1 if judgement.errors(strict=strict) else 0)
