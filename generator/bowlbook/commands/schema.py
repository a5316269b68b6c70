"""``bowlbook schema``: JSON Schema files for editors."""

from contextlib import suppress
from pathlib import Path

import click

from bowlbook.book.folder import Folder
from bowlbook.book.known_ids import known_ids
from bowlbook.book.shelf_folder import read_folder
from bowlbook.cache.digest import digest_of, program_digest
from bowlbook.commands.printer import echo, print_json, recipes_option

Ids = dict[tuple[str, str], list[str]]
FOLDER = Path(".bowlbook") / "schema"


MADE_OF = "made-of"
"""The file beside the schemas with the digest of what they were made from."""


@click.command()
@recipes_option
@click.option("--json", "as_json", is_flag=True, help="Print the schemas instead of writing them.")
def command(recipes: Path, as_json: bool) -> None:
    """Write the JSON Schema files that explain fields in an editor.

    They go to .bowlbook/schema/ beside the recipes' folder, where the first line of an entry that
    "bowlbook new" wrote finds them. They hold the book's ids too; "bowlbook check" keeps them up to date
    in a book whose house.yml has such a first line.
    """
    if as_json:
        from bowlbook.entries.schema import schemas

        print_json(schemas(known_ids(read_folder(recipes))))
        return
    echo(f"Wrote {', '.join(write_schemas(recipes))} to {FOLDER}.")


def write_schemas(recipes: Path) -> list[str]:
    """Write the schema of every kind beside a book's folder; returns the files' names.

    Raises `click.UsageError` where they cannot be written.
    """
    try:
        return _write(recipes, known_ids(read_folder(recipes)))
    except OSError as error:
        raise click.UsageError(f"The schemas cannot be written to {FOLDER}: {error.strerror}.") from error


def refresh(recipes: Path, folder: Folder) -> None:
    """Write the schemas if house.yml names its own in its first line, unless they are up to date.

    A clone then has them after its first check. Where they cannot be written, nothing is said.
    """
    house = next((content for file, content in folder.files if file.kind == "house"), None)
    if not isinstance(house, bytes) or b"$schema=" not in house.partition(b"\n")[0]:
        return
    ids = known_ids(folder)
    made_of = _folder(recipes) / MADE_OF
    with suppress(OSError, UnicodeDecodeError):
        if not made_of.is_file() or made_of.read_text(encoding="utf-8") != _digest(ids):
            _write(recipes, ids)


def _folder(recipes: Path) -> Path:
    """Where the schemas stand: the first line of an entry names its own by a relative path."""
    return recipes.resolve().parent / FOLDER


def _digest(ids: Ids) -> str:
    return digest_of(program_digest(), repr(ids)).hex()


def _write(recipes: Path, ids: Ids) -> list[str]:
    """Write every schema, then what they were made from. Returns their names. Raises OSError."""
    import json

    from bowlbook.entries.schema import schemas

    folder = _folder(recipes)
    folder.mkdir(parents=True, exist_ok=True)
    names = []
    for kind, schema in schemas(ids).items():
        text = json.dumps(schema, indent=2, ensure_ascii=False) + "\n"
        names.append(f"{kind}.json")
        (folder / names[-1]).write_text(text, encoding="utf-8", newline="\n")
    (folder / MADE_OF).write_text(_digest(ids), encoding="utf-8", newline="\n")
    return names
