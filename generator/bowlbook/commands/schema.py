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

    found = schemas()
    if as_json:
        echo(json.dumps(found, indent=2, ensure_ascii=False))
        return
    # The first line of an entry names its schema by a relative path.
    folder = recipes.resolve().parent / FOLDER
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for kind, schema in found.items():
            text = json.dumps(schema, indent=2, ensure_ascii=False) + "\n"
            (folder / f"{kind}.json").write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        raise click.UsageError(f"The schemas cannot be written to {FOLDER}: {error.strerror}.") from error
    echo(f"Wrote {', '.join(f'{kind}.json' for kind in found)} to {FOLDER}.")
