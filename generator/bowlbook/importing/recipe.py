"""One recipe of a table: its lighteners or toners, developer, additives, and which heads it is for."""

from collections.abc import Callable
from functools import partial

from bowlbook.entries.facets import FACET_WORDS, FACETS
from bowlbook.entries.gap import GAP
from bowlbook.importing import cells
from bowlbook.importing.bowl import BowlReader
from bowlbook.importing.draft import Draft, RowReader
from bowlbook.importing.field_cell import FieldCell
from bowlbook.importing.number import Unclear
from bowlbook.importing.shelf import Shelf

ASKED = ("natural_level", "lift", "texture", "placement")
ASKED_OF_TONERS = ("target_level",)
"""What must be said of the heads a blend is for, since a facet left out means that any will do."""


def recipe_draft(reader: RowReader, name: FieldCell, shelf: Shelf) -> Draft:
    """The draft of a recipe. Raises `LeftOut`."""
    entry_id = reader.entry_id(name)
    data: dict[str, object] = {"name": name.words}
    bowl = BowlReader(reader, shelf)
    role = "toners" if reader.filled("toners") else "lighteners"
    shares, unsure = bowl.shares(role), []
    if role == "toners" and reader.filled("lighteners"):
        unsure = [_toner_beside_lighteners(reader)]
        role, shares = "lighteners", bowl.shares("lighteners")
    data |= {role: shares, "developer": bowl.developer(), "additives": [*unsure, *bowl.additives()]}
    data["suits"] = _suits(reader, ASKED_OF_TONERS if role == "toners" else ASKED)
    for key, read in FIELDS.items():
        data[key] = reader.take(key, read)
    data |= stamps(reader)
    return reader.draft("blend", entry_id, data)


FIELDS: dict[str, Callable[[FieldCell], object]] = {
    "summary": cells.read_words,
    "other_names": cells.read_names,
    "batches": cells.read_json,
    "fresh_for": cells.read_minutes,
    "deepens": partial(cells.read_word, of="yes_no"),
    "not_for": cells.read_json,
    "cautions": cells.read_list,
    "notes": cells.read_text,
    "formerly": cells.read_names,
    "private": cells.read_text,
}
"""How each field of a recipe is read, but its name, bowl, heads and review."""


def stamps(reader: RowReader) -> dict[str, dict[str, object]]:
    """When it was reviewed and when retired, with what belongs to each, as far as the table states it."""
    stated: dict[str, dict[str, object]] = {}
    for name, texts in (("reviewed", ("by", "change")), ("retired", ("because", "instead"))):
        found = {"on": reader.take(f"{name}.on", cells.read_day)}
        found |= {key: reader.take(f"{name}.{key}", cells.read_words) for key in texts}
        stated[name] = {key: value for key, value in found.items() if value is not None}
    return {name: each for name, each in stated.items() if each}


def _toner_beside_lighteners(reader: RowReader) -> dict[str, str]:
    """A toner in a lightener's bowl, as an additive that is open: how much of it is not said."""
    question = "A bowl lightens or tones. Is this toner an additive, or a bowl of its own after rinsing?"
    mend = "Write it under additives with its ratio, or as a recipe of its own."
    reader.ask(reader.filled("toners")[0], Unclear(question, mend), ("additives",))
    return {"product": GAP, "ratio": GAP}


def _suits(reader: RowReader, asked: tuple[str, ...]) -> object:
    """The facets that the table states and no others; those that must be said are left open."""
    stated: dict[str, object] = {}
    for facet in FACETS:

        def read(cell: FieldCell, facet: str = facet) -> object:
            if cells.is_any(cell, facet):
                return "any"
            return cells.read_known(cell, facet) if facet in FACET_WORDS else cells.read_span(cell)

        value = reader.take(f"suits.{facet}", read)
        if value is not None:
            stated[facet] = value
    if not stated:
        return GAP
    wanted = {facet: stated.get(facet, GAP if facet in asked else None) for facet in FACETS}
    return {facet: value for facet, value in wanted.items() if value not in (None, "any")}
