"""``bowlbook new``: a commented entry to start from, with gaps for everything that only the house knows."""

import json
import re
from pathlib import Path
from string import Template
from typing import Any

import click

from bowlbook.book.folder import FOLDER_OF, RESERVED
from bowlbook.checks.day import today
from bowlbook.commands.printer import echo, recipes_option, stop, visible, wrong_use
from bowlbook.commands.start import STARTS, is_interactive, scalar
from bowlbook.entries.entry_id import id_from
from bowlbook.entries.gap import GAP
from bowlbook.entries.mistake import description_of
from bowlbook.entries.product import PRODUCT_KINDS
from bowlbook.entries.validate import ENTRY_CLASSES, known_keys, private_keys, validate
from bowlbook.entries.words import read_name
from bowlbook.reading.document import read_text
from bowlbook.reading.finding import Finding
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.refusal import Refusal
from bowlbook.reading.source import Loc, Source, texts_in, value_at

PRODUCTS = tuple(PRODUCT_KINDS)
BOOK = "book"
START_KINDS = ("house", *PRODUCTS, "blend", "technique", "situation", "class", "trouble")


class _New(click.Command):
    """A whole book has options of its own."""

    def make_context(
        self, info_name: str | None, args: list[str], parent: click.Context | None = None, **extra: Any
    ) -> click.Context:
        """The context of ``new``, or of ``new book``."""
        if args[:1] != [BOOK]:
            return super().make_context(info_name, args, parent, **extra)
        from bowlbook.commands.new_book import command as new_book

        return new_book.make_context(f"{info_name} {BOOK}", args[1:], parent, **extra)


@click.command(cls=_New)
@click.argument("kind", type=click.Choice(START_KINDS), metavar="KIND")
@click.argument("name", metavar="NAME")
@recipes_option
@click.option("--id", "entry_id", metavar="ID", help="The file's name; else made from the name.")
@click.option(
    "--set",
    "given",
    multiple=True,
    metavar="FIELD=VALUE",
    help="Fill in a gap, as volume=20 or mixing_ratio.usual=1:2; may be given several times.",
)
def command(kind: str, name: str, recipes: Path, entry_id: str | None, given: tuple[str, ...]) -> None:
    """Write a commented entry to start from; or begin a whole book, with bowlbook new book DIR.

    KIND is house, lightener, developer, toner, additive, supply, blend, technique, situation, class or
    trouble. What is not given with --set is asked for at a terminal, or left as a gap, ???, which check
    lists.
    """
    with wrong_use(Refusal):
        name = read_name(name)
    path = _path(kind, name, recipes, entry_id)
    there_already = f"{path} is there already; nothing was written."
    if path.exists():
        stop(there_already)
    start = Template((STARTS / f"{kind}.yml").read_text(encoding="utf-8"))
    text = start.substitute(name=scalar(name), today=today().isoformat())
    once: set[str] = set()
    for each in given:
        field = each.partition("=")[0].strip()
        if field in once:
            raise click.UsageError(f'--set gives "{field}" twice.')
        once.add(field)
        text = _fill_gap(kind, text, *_field_and_value(kind, text, each))
    if is_interactive():
        text = _ask_for_gaps(kind, text)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        # Exclusive: a file that appeared since the check above is not overwritten.
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        stop(there_already)
    except OSError as error:
        raise click.UsageError(f"{path} cannot be written: {error.strerror}.") from error
    left = [_field(loc) for loc in _gaps(_source(kind, text))]
    echo(f"Wrote {path}.")
    if left:
        echo(f"Still to fill in: {', '.join(dict.fromkeys(left))}.")
    echo("Now make it yours, then: bowlbook check")


def _source(kind: str, text: str) -> Source:
    return read_text(text, f"{kind}.yml", private_keys(), known_keys())[0]


def _gaps(source: Source) -> list[Loc]:
    """The locations of an entry's gaps, in the file's order."""
    return [loc for loc, text in texts_in(source.data) if text == GAP]


def _field(loc: Loc) -> str:
    """A location as ``--set`` names it: the first item of a list has no number, the second is 2."""
    steps = [str(step + 1) if isinstance(step, int) else step for step in loc if step != 0]
    return ".".join(steps)


def _field_and_value(kind: str, text: str, given: str) -> tuple[str, str]:
    """The field and value of one ``--set``. Raises `click.UsageError` for a field that is not a gap."""
    field, sign, value = given.partition("=")
    names = [_field(loc) for loc in _gaps(_source(kind, text))] + COMMENTED.findall(text)
    if not sign or not value.strip():
        raise click.UsageError("--set takes FIELD=VALUE, as volume=20.")
    if field.strip() not in names:
        mend = did_you_mean(field.strip(), names) or f"Fields: {', '.join(names)}."
        raise click.UsageError(f'"{field.strip()}" is no gap of this start. {mend}')
    return field.strip(), value.strip()


COMMENTED = re.compile(r"(?m)^# ([a-z_]+): \?\?\?")
"""An optional field, commented out in a start."""


def _fill_gap(kind: str, text: str, field: str, value: str) -> str:
    """The text with a value in place of a gap: plain where it reads back unchanged, else in quotes.

    Raises `click.UsageError` for a value that does not fit there.
    """
    text = re.sub(rf"(?m)^# ({re.escape(field)}: \?\?\?)", r"\1", text, count=1)
    source = _source(kind, text)
    loc = next(loc for loc in _gaps(source) if _field(loc) == field)
    start = source.offset_of(loc)
    wrong: list[Finding] = []
    # A JSON string is also a quoted YAML scalar.
    for written in (value, json.dumps(value, ensure_ascii=False)):
        rest = text[start + len(GAP) :]
        behind = re.match(" {2,}(?=#)", rest)  # the remarks stay in their column where there is room
        if behind is not None:
            rest = " " * max(2, len(behind[0]) + len(GAP) - len(written)) + rest[behind.end() :]
        filled = text[:start] + written + rest
        wrong = _wrong_at(kind, filled, loc, value)
        if not wrong:
            return filled
    raise click.UsageError(f"{field}: {wrong[0].message} {wrong[0].mend}")


def _wrong_at(kind: str, text: str, loc: Loc, value: str) -> list[Finding]:
    """The findings in a text, other gaps aside, or one that the value does not read back unchanged."""
    source, findings = read_text(text, f"{kind}.yml", private_keys(), known_keys())
    if findings:
        return findings
    of_kind = "product" if kind in PRODUCTS else kind
    findings = [each for each in validate(of_kind, "new", source)[1] if each.code != "not-filled-in"]
    found = value_at(source.data, loc)
    if findings or found == value or isinstance(found, list):
        return findings
    return [source.finding(loc, "wrong-shape", "This is not read as it is written.", "Use plain words.")]


def _ask_for_gaps(kind: str, text: str) -> str:
    """The text with a person's answers filled in; an empty answer leaves the gap."""
    cls = PRODUCT_KINDS.get(kind) or ENTRY_CLASSES[kind]
    for loc in _gaps(_source(kind, text)):
        named = tuple(step for step in loc if isinstance(step, str))
        question = f"{_field(loc)} ({description_of(cls, named).rstrip('.')}; empty: later)"
        while answer := click.prompt(visible(question), default="", show_default=False).strip():
            try:
                text = _fill_gap(kind, text, _field(loc), answer)
                break
            except click.UsageError as error:
                echo(error.message, err=True)
    return text


def _path(kind: str, name: str, recipes: Path, entry_id: str | None) -> Path:
    if kind == "house":
        return recipes / "house.yml"
    made = id_from(entry_id or name)
    if not made or RESERVED.fullmatch(made) or (entry_id and made != entry_id):
        raise click.UsageError("Give it an id of lower-case letters, digits and hyphens with --id.")
    return recipes / FOLDER_OF["product" if kind in PRODUCTS else kind] / f"{made}.yml"
