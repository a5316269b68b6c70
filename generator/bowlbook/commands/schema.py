"""``bowlbook schema``: JSON Schema files for editors."""

import json
from pathlib import Path

import click

from bowlbook.commands.printer import echo, recipes_option

FOLDER = Path(".bowlbook") / "schema"


@click.command()
@recipes_option
@click.option("--json", "as_json", is_flag=True, help="Print the schemas instead of writing them.")
def command(recipes: Path, as_json: bool) -> None:
    """Write the JSON Schema files that explain fields in an editor.

    They go to .bowlbook/schema/ beside the recipes' folder, where the first line of an entry that
    "bowlbook new" wrote finds them.
    """
    from bowlbook.entries.schema import schemas

    if as_json:
        echo(json.dumps(schemas(), indent=2, ensure_ascii=False))
        return
    echo(f"Wrote {', '.join(write_schemas(recipes))} to {FOLDER}.")


def write_schemas(recipes: Path) -> list[str]:
    """Write the schema of every kind beside a book's folder; returns the files' names.

    Raises `click.UsageError` where they cannot be written.
    """
    from bowlbook.entries.schema import schemas

    # The first line of an entry names its schema by a relative path.
    folder = recipes.resolve().parent / FOLDER
    try:
        folder.mkdir(parents=True, exist_ok=True)
        found = {f"{kind}.json": schema for kind, schema in schemas().items()}
        for name, schema in found.items():
            text = json.dumps(schema, indent=2, ensure_ascii=False) + "\n"
            (folder / name).write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        raise click.UsageError(f"The schemas cannot be written to {FOLDER}: {error.strerror}.") from error
    return list(found)
