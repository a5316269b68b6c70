"""One recipe of a table: its lighteners or toners, developer, additives, and which heads it is for."""

from typing import Any

from bowlbook.entries.entry_id import id_from
from bowlbook.entries.facets import FACET_WORDS, FACETS
from bowlbook.entries.gap import GAP
from bowlbook.importing import cells
from bowlbook.importing.bowl import BowlReader
from bowlbook.importing.columns import Column
from bowlbook.importing.draft import Draft, RowReader
from bowlbook.importing.number import Unclear
from bowlbook.importing.shelf import Shelf
from bowlbook.importing.table import Cell

ASKED = ("natural_level", "lift", "texture", "placement")
ASKED_OF_TONERS = ("target_level",)
"""What must be said of the heads a blend is for, since a facet left out means that any will do."""


def recipe_draft(reader: RowReader, shelf: Shelf) -> Draft:
    """The draft of a recipe. Raises `LeftOut`."""
    reader.refuse_persons()
    name = reader.one("name")
    assert name is not None
    given_id = reader.take("id", lambda cell, _: cell.text)
    entry_id = given_id or id_from(name[1].text)
    if not entry_id or entry_id == GAP:
        message = "No file can be named after this."
        raise reader.leave_out(
            name[0].place, "row-left-out", message, "Give it an id in a column of that name."
        )
    data: dict[str, Any] = {"name": " ".join(name[1].text.split())}
    bowl = BowlReader(reader, shelf)
    toners = any(cell.text for _, cell in reader.cells("toners"))
    data["toners" if toners else "lighteners"] = bowl.shares("toners" if toners else "lighteners")
    if toners and any(cell.text for _, cell in reader.cells("lighteners")):
        _toner_beside_lighteners(reader, data, bowl)
        toners = "toners" in data
    data["developer"] = bowl.developer()
    data["additives"] = [*data.get("additives", []), *bowl.additives()]
    data["suits"] = _suits(reader, ASKED_OF_TONERS if toners else ASKED)
    for key, read in (
        ("summary", lambda cell, _: " ".join(cell.text.split())),
        ("other_names", lambda cell, _: cells.read_names(cell)),
        ("batches", lambda cell, _: cells.read_json(cell)),
        ("fresh_for", lambda cell, column: cells.read_minutes(cell, column.unit, reader.decimal)),
        ("deepens", lambda cell, _: cells.read_word(cell, "yes_no")),
        ("not_for", lambda cell, _: cells.read_json(cell)),
        ("cautions", lambda cell, _: cells.read_list(cell)),
        ("notes", lambda cell, _: cell.text),
        ("formerly", lambda cell, _: cells.read_names(cell)),
        ("private", lambda cell, _: cell.text),
    ):
        data[key] = reader.take(key, read)
    data["reviewed"], data["retired"] = reviewed(reader), retired(reader)
    found = {key: value for key, value in data.items() if value not in (None, [])}
    return reader.checked(Draft("blend", entry_id, reader.row, found))


def reviewed(reader: RowReader) -> dict[str, Any] | None:
    """The review stamp that the table states; what is missing of one is left open."""
    return _dated(reader, "reviewed", ("by", "change"))


def retired(reader: RowReader) -> dict[str, Any] | None:
    """Since when it is no longer used, why, and what is in its place, as far as the table states it."""
    return _dated(reader, "retired", ("because", "instead"))


def _dated(reader: RowReader, name: str, texts: tuple[str, str]) -> dict[str, Any] | None:
    found: dict[str, Any] = {
        "on": reader.take(f"{name}.on", lambda cell, _: cells.read_day(cell, reader.days))
    }
    for key in texts:
        found[key] = reader.take(f"{name}.{key}", lambda cell, _: " ".join(cell.text.split()))
    return {key: value for key, value in found.items() if value is not None} or None


def _toner_beside_lighteners(reader: RowReader, data: dict[str, Any], bowl: BowlReader) -> None:
    """A toner in a lightener's bowl: an additive where it has a ratio, else nobody knows how much."""
    column, cell = next(each for each in reader.cells("toners") if each[1].text)
    data["lighteners"] = bowl.shares("lighteners")
    del data["toners"]
    question = "A bowl lightens or tones. Is this toner an additive, or a bowl of its own after rinsing?"
    mend = "Write it under additives with its ratio, or as a recipe of its own."
    reader.ask(column, cell, Unclear(question, mend), ("additives",))
    data["additives"] = [{"product": GAP, "ratio": GAP}]


def _suits(reader: RowReader, asked: tuple[str, ...]) -> Any:
    """The facets that the table states and no others; those that must be said are left open."""
    stated: dict[str, Any] = {}
    for facet in FACETS:
        name = f"suits.{facet}"

        def read(cell: Cell, _: Column, facet: str = facet) -> Any:
            if cells.is_any(cell, facet):
                return "any"
            return cells.read_words(cell, facet) if facet in FACET_WORDS else cells.read_span(cell)

        value = reader.take(name, read)
        if value is not None:
            stated[facet] = value
    if not stated:
        return GAP
    wanted = {facet: stated.get(facet, GAP if facet in asked else None) for facet in FACETS}
    return {facet: value for facet, value in wanted.items() if value not in (None, "any")}
