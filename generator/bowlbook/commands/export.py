"""``bowlbook export``: the whole book as JSON or as tables, so that other programs can read it."""

import json
import os
from pathlib import Path

import click

from bowlbook.commands.printer import PATH, echo, print_json, recipes_option, stop, whole_book
from bowlbook.exporting.book_data import book_data, book_schema
from bowlbook.exporting.tables import tables


@click.command()
@recipes_option
@click.option("--json", "as_json", is_flag=True, help="As one JSON document, printed or written to --out.")
@click.option("--csv", "as_csv", is_flag=True, help="As tables, one a kind of entry, in the folder --out.")
@click.option("--schema", is_flag=True, help="Print the JSON Schema of the document instead.")
@click.option("--out", type=PATH, metavar="PATH", help="A new file, or a new folder.")
@click.option("--private", is_flag=True, help="With prices, costs, names of staff and private notes.")
def command(
    recipes: Path, as_json: bool, as_csv: bool, schema: bool, out: Path | None, private: bool
) -> None:
    """Write the whole book as plain data, for other programs.

    What is private is left out without --private. Nothing is written over.
    """
    if as_json + as_csv + schema != 1:
        raise click.UsageError("Say one of --json, --csv and --schema.")
    if as_csv:
        if out is None:
            raise click.UsageError("Say with --out which folder the tables go to.")
        _write_tables(out, tables(whole_book(recipes), private=private))
    else:
        _give(out, book_schema() if schema else book_data(whole_book(recipes), private=private))


def _give(out: Path | None, data: object) -> None:
    if out is None:
        print_json(data)
        return
    text = json.dumps(data, indent=2, ensure_ascii=False)
    try:
        # Exclusive: a file that appears at this moment is not overwritten.
        with out.open("x", encoding="utf-8", newline="\n") as file:
            file.write(f"{text}\n")
    except FileExistsError:
        stop(f"{out} is there already; nothing was written.")
    except OSError as error:
        stop(f"{out} cannot be written: {error.strerror}.")
    echo(f"Wrote {out}.", err=True)


def _write_tables(out: Path, texts: dict[str, str]) -> None:
    """A new folder with the tables; it gets its name when all of them are in it."""
    if os.path.lexists(out):
        stop(f"{out} is there already; nothing was written.")
    staged = out.with_name(f".{out.name}-{os.getpid()}")
    try:
        staged.mkdir(parents=True)
        for name, text in texts.items():
            (staged / f"{name}.csv").write_text(text, encoding="utf-8", newline="")
        staged.rename(out)
    except OSError as error:
        stop(f"{out} cannot be written: {error.strerror}.")
    echo(f"Wrote {len(texts)} tables to {out}.", err=True)
