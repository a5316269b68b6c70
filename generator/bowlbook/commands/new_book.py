"""``bowlbook new book``: a folder that holds a whole book of its own, checked strictly before it is left."""

import json
import sys
from importlib.metadata import distribution
from pathlib import Path
from string import Template
from urllib.parse import unquote

import click

from bowlbook.book.shelf_folder import read_folder
from bowlbook.cache.cache import open_cache
from bowlbook.checks.day import today
from bowlbook.checks.judge import findings_in
from bowlbook.commands.printer import PATH, echo, print_findings, stop, visible
from bowlbook.commands.schema import write_schemas
from bowlbook.commands.start import STARTS, is_interactive, scalar
from bowlbook.entries.validate import known_keys, private_keys, validate
from bowlbook.reading.amount import counted
from bowlbook.reading.document import read_text

HERE = STARTS / "book"
FILES = {
    "mkdocs.yml": "mkdocs.yml",
    "safety.md": "docs/safety.md",
    "gitignore": ".gitignore",
    "editorconfig": ".editorconfig",
    "requirements.txt": "requirements.txt",
    "pre-commit-config.yaml": ".pre-commit-config.yaml",
    "workflow.yml": ".github/workflows/book.yml",
}
"""The files beside the recipes, and where they belong."""
FILLED = ("mkdocs.yml", "requirements.txt")
"""Those that something is put into."""
HOUSE = "recipes/house.yml"
BATCHES = {"g": "15, 30, 60", "oz": "0.5, 1, 2"}
EXAMPLE = {
    "lightener_net": {"g": "500 g", "oz": "16 oz"},
    "developer_net": {"g": "1 L", "oz": "32 fl oz"},
    "toner_net": {"g": "60 g", "oz": "2 oz"},
    "additive_net": {"g": "200 g", "oz": "7 oz"},
    "mix": {"g": "4 g", "oz": "0.15 oz"},
    "gloss": {"g": "60 g", "oz": "2 oz"},
}
"""Amounts of the invented example, in each unit."""
NOTICE = "notice: The example entries are invented. Write your own, delete them, and delete this line.\n"
ASKED = {
    "title": "The book's title",
    "currency": "Currency (three letters of ISO 4217, as EUR)",
    "locale": "Language and region, for money and dates (as pt-PT)",
    "unit": "What the scale weighs in (g or oz; both as oz, g)",
    "step": "The scale's step: the smallest difference it shows (as 0.1; of two units as 0.05, 1)",
}
SOUND = {"title": "A book", "currency": "EUR", "locale": "en-IE", "unit": "g", "step": "0.1"}
"""Answers without a fault, beside which one other is judged."""


@click.command("book")
@click.argument("folder", type=PATH, metavar="DIR")
@click.option("--title", help=f"{ASKED['title']}.")
@click.option("--currency", help="Three letters of ISO 4217, as EUR.")
@click.option("--locale", help="Language and region for money and dates, as pt-PT.")
@click.option("--unit", help="What the scale weighs in: g or oz; both as oz,g.")
@click.option("--step", help="The scale's step in that unit, as 0.1; in both as 0.05,1.")
@click.option(
    "--on-scalp-limit",
    "on_scalp",
    default="20 volume",
    show_default=True,
    help="The strongest developer the house puts on a scalp.",
)
@click.option("--example", is_flag=True, help="Put in an invented example of each kind of entry.")
def command(folder: Path, on_scalp: str, example: bool, **given: str | None) -> None:
    """Begin a book in DIR: its configuration, house, safety page, workflow and hook.

    What is left out is asked for at a terminal. The book is checked strictly as it is left. Nothing that is
    in DIR is overwritten.
    """
    answers = _answers(given)
    for field, value in (*answers.items(), ("on_scalp", on_scalp)):
        _refuse_fault(field, value, answers["unit"])
    texts = _texts({**answers, "on_scalp": on_scalp}, example=example)
    there = [path for path in texts if (folder / path).exists() or (folder / path).is_symlink()]
    if there:
        hint = " A book in a site that is there: bowlbook help begin." if "mkdocs.yml" in there else ""
        stop(f"{folder} has {', '.join(there)} already; nothing was written.{hint}")
    _write(folder, texts)
    recipes = folder / "recipes"
    write_schemas(recipes)
    echo(f"Wrote {counted(len(texts), 'file')} into {folder}: {', '.join(texts)}.")
    with open_cache(recipes) as cache:
        findings = findings_in(recipes, read_folder(recipes), today(), None, cache)
    print_findings(findings, full=True)
    if findings:
        sys.exit(1)
    echo(
        "Next: fill in docs/safety.md; then, in that folder: bowlbook new lightener NAME, or, from a "
        "spreadsheet, bowlbook import TABLE."
    )


def _answers(given: dict[str, str | None]) -> dict[str, str]:
    """Every answer, those left out from a terminal. Raises `click.UsageError` where there is none."""
    missing = [field for field in ASKED if not given.get(field)]
    if missing and not is_interactive():
        raise click.UsageError(f"Say {', '.join(f'--{field}' for field in missing)}.")
    answers = {field: value.strip() for field, value in given.items() if value}
    for field in missing:
        while field not in answers:
            value = click.prompt(visible(ASKED[field]), default=SOUND[field] if field == "unit" else None)
            try:
                _refuse_fault(field, value.strip(), answers.get("unit"))
                answers[field] = value.strip()
            except click.UsageError as error:
                echo(error.message, err=True)
    return {field: answers[field] for field in ASKED}


def _refuse_fault(field: str, value: str, unit: str | None) -> None:
    """Raise `click.UsageError` for an answer that the house's entry would not take. ``unit``: of the step."""
    units = _each(value if field == "unit" else unit or SOUND["unit"])
    if not set(units) <= set(BATCHES) or len(set(units)) < len(units):
        raise click.UsageError(f'--unit takes g, oz, or both as oz,g; not "{", ".join(units)}".')
    if field == "step" and len(_each(value)) != len(units):
        mend = "Write one with a point, as 0.1." if len(units) == 1 else "Write two with points, as 0.05, 1."
        raise click.UsageError(f"--step: There is one for {' and one for '.join(units)}. {mend}")
    # Beside sound answers to the other questions, so that what is found is about this one.
    steps = {"step": ", ".join([SOUND["step"]] * len(units)), "unit": ", ".join(units)}
    text = _house({**SOUND, **steps, "on_scalp": "20 volume", field: value})
    source, found = read_text(text, HOUSE, private_keys(), known_keys())
    found = found or validate("house", "house", source)[1]
    if found:
        name = {"on_scalp": "on-scalp-limit"}.get(field, field)
        raise click.UsageError(f"--{name}: {found[0].message} {found[0].mend}")


def _each(value: str) -> list[str]:
    """The values of an answer with commas between."""
    return [each.strip() for each in value.split(",")]


def _house(answers: dict[str, str], notice: str = "") -> str:
    start = Template((HERE / "house.yml").read_text(encoding="utf-8"))
    title, units = scalar(answers["title"]), _each(answers["unit"])
    batches = ", ".join(f"{unit}: [{BATCHES[unit]}]" for unit in units)
    steps = ", ".join(f"{unit}: {step}" for unit, step in zip(units, _each(answers["step"]), strict=True))
    return start.substitute(answers, title=title, batches=batches, steps=steps, notice=notice)


def _texts(answers: dict[str, str], *, example: bool) -> dict[str, str]:
    """Every file by its path in the book's folder."""
    texts = {HOUSE: _house(answers, NOTICE if example else "")}
    filled = {"title": scalar(answers["title"]), "program": _program()}
    for name, path in FILES.items():
        text = (HERE / "files" / name).read_text(encoding="utf-8")
        texts[path] = Template(text).substitute(filled) if name in FILLED else text
    first_unit = _each(answers["unit"])[0]
    amounts = {key: amount[first_unit] for key, amount in EXAMPLE.items()}
    for source in sorted((HERE / "example").rglob("*.yml")) if example else ():
        start = Template(source.read_text(encoding="utf-8"))
        path = f"recipes/{source.relative_to(HERE / 'example').as_posix()}"
        texts[path] = start.substitute(amounts, today=today().isoformat())
    return texts


def _program() -> str:
    """The line of ``requirements.txt`` with which pip gets this program again (PEP 508, PEP 610)."""
    installed = distribution("bowlbook")
    origin = json.loads(installed.read_text("direct_url.json") or "{}")
    url = str(origin.get("url", ""))
    if url.startswith("file:") and url.endswith(".whl"):  # never a stranger's package of the same name
        return f"./{unquote(url.rpartition('/')[2])}"
    if not url.startswith("https:"):
        return f"bowlbook=={installed.version}"
    version = origin.get("vcs_info")
    return f"bowlbook @ {version['vcs']}+{url}@{version['commit_id']}" if version else f"bowlbook @ {url}"


def _write(folder: Path, texts: dict[str, str]) -> None:
    """Write all files or none. Raises `click.UsageError` where one cannot be written."""
    written: list[Path] = []
    try:
        for name, text in texts.items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            with path.open("x", encoding="utf-8", newline="\n") as file:
                written.append(path)
                file.write(text)
    except OSError as error:
        # A second try would find these files, and refuse to overwrite them.
        for path in written:
            path.unlink(missing_ok=True)
        raise click.UsageError(f"{path} cannot be written: {error.strerror}. Nothing was kept.") from error
