"""One recipe of a table: its lighteners or toners, developer, additives, and which heads it is for."""

import re
from fractions import Fraction
from typing import Any

from bowlbook.entries.entry_id import id_from
from bowlbook.entries.facets import FACET_WORDS, FACETS
from bowlbook.entries.gap import GAP
from bowlbook.importing import cells
from bowlbook.importing.columns import Column
from bowlbook.importing.draft import Draft, RowReader
from bowlbook.importing.number import Unclear, decimal_text, read_number
from bowlbook.importing.shelf import Shelf
from bowlbook.importing.table import Cell
from bowlbook.importing.words import plain, words
from bowlbook.reading.amount import counted

ASKED = ("natural_level", "lift", "texture", "placement")
ASKED_OF_TONERS = ("target_level",)
"""What must be said of the heads a blend is for, since a facet left out means that any will do."""
LEAD_WITH_UNIT = re.compile(rf"(?P<number>{cells.CELL_NUMBER})\s*(?P<unit>[^\W\d_]+)\s+(?P<name>[^\W\d_].*)")
LEAD = re.compile(rf"(?P<number>{cells.CELL_NUMBER})\s*(?:[x×]\s*)?(?P<unit>)(?P<name>[^\W\d_].*)")
TAIL = re.compile(
    rf"(?P<name>.*?[^\s:(x×])\s*[:(x×]?\s*(?P<number>{cells.CELL_NUMBER})\s*(?P<unit>[^\W\d_]+)?\s*\)?"
)
CERTAIN = r"\s*[+&;\n]\s*"
"""Signs that part the products of a cell, whether they are known or not."""
WITH_RATIO = re.compile(r"(?P<name>.*[^\s:(])[\s:(]+(?P<ratio>[0-9.,]+\s*[:+]\s*[0-9.,]+)\)?")
Share = tuple[str, str, str]
"""A product's name, the number beside it, and the unit of that; both empty where there is none."""


def recipe_of(reader: RowReader, shelf: Shelf) -> Draft:
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
    bowl = _Bowl(reader, shelf)
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


def _toner_beside_lighteners(reader: RowReader, data: dict[str, Any], bowl: "_Bowl") -> None:
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


class _Bowl:
    """What is mixed. ``total``: the weight of all lighteners and its unit, where the table gives weights."""

    def __init__(self, reader: RowReader, shelf: Shelf) -> None:
        self.reader = reader
        self.shelf = shelf
        self.total: tuple[Fraction, str] | None = None

    def shares(self, field: str) -> Any:
        """The lighteners or toners with their parts; a gap for each that is not certain."""
        kind = (field[:-1],)
        named = [(column, cell) for column, cell in self.reader.cells(field) if cell.text]
        if not named:
            return [{"product": GAP, "parts": GAP}]
        ids: list[str] = []
        beside: list[tuple[str, str]] = []
        for column, cell in named:
            try:
                for name, number, unit in self._pieces(cell, kind):
                    ids.append(self.shelf.product(name, kind, self.reader.row))
                    beside.append((number, unit))
            except Unclear as unclear:
                self.reader.ask(column, cell, unclear, (field, len(ids), "product"))
                ids.append(GAP)
                beside.append(("", ""))
        parts = self._parts(field, len(ids), beside)
        return [{"product": each, "parts": part} for each, part in zip(ids, parts, strict=True)]

    def _pieces(self, cell: Cell, kinds: tuple[str, ...]) -> list[Share]:
        """The products that a cell names. Only where all of them are known, other signs than + part them."""
        text = cell.text
        if cell.kind != "text":
            raise Unclear("This is not a product's name.", "Write its name.")
        whole = self._share(text, kinds)
        if self.shelf.known_quietly(whole[0], kinds):
            return [whole]
        for signs in (CERTAIN, r"\s*[/,]\s*", r"\s*:\s*"):
            pieces = [self._share(each, kinds) for each in re.split(signs, text) if each]
            if len(pieces) > 1 and (
                signs.startswith(r"\s*[+") or all(self.shelf.known_quietly(each[0], kinds) for each in pieces)
            ):
                return pieces
        return [whole]

    def _share(self, text: str, kinds: tuple[str, ...]) -> Share:
        """A name with the number before or behind it, unless that belongs to the name."""
        text = " ".join(text.split())
        if self.shelf.known_quietly(text, kinds):
            return text, "", ""
        for form in (LEAD_WITH_UNIT, LEAD, TAIL):
            found = form.fullmatch(text)
            if found is not None and self._is_share(found, text, kinds):
                unit = found["unit"] or ""
                return found["name"], found["number"].strip(), "" if _means_parts(unit) else unit
        return text, "", ""

    def _is_share(self, found: re.Match[str], text: str, kinds: tuple[str, ...]) -> bool:
        """Whether a number beside a name is how much of it is taken, and not a part of the name."""
        unit = found["unit"]
        if unit and not _means_parts(unit) and cells.unit_of(unit) is None:
            return False
        known = self.shelf.known_quietly(found["name"], kinds)
        return known or bool(unit) or "(" in text or bool(re.match(r"[0-9]+\s*[x×]", text))

    def _parts(self, field: str, count: int, beside: list[tuple[str, str]]) -> list[str]:
        """As many parts as there are products."""
        given = [(column, cell) for column, cell in self.reader.cells(f"{field}.parts") if cell.text]
        inline = [(number, unit) for number, unit in beside if number]
        column, cell = given[0] if given else next(each for each in self.reader.cells(field) if each[1].text)
        try:
            if inline and (given or len(inline) != count):
                raise Unclear("Parts are given here for some, or twice.", "Write the parts of each once.")
            if inline:
                return self._of_numbers([(number, unit) for number, unit in inline])
            if len(given) == count and (count > 1 or weight_like(given[0])):
                return self._of_cells(given)
            if not given and count == 1:
                return ["1"]
            if len(given) != 1:
                raise Unclear("How many parts of each is not said.", "Write them as 2:1.")
            sides = cells.read_sides(cell, self.reader.decimal)
            if len(sides) != count:
                question = f"{counted(len(sides), 'number')} for {counted(count, 'product')}."
                raise Unclear(question, "Write one number for each product, as 2:1.")
            return ["1"] if count == 1 else [decimal_text(side) for side in sides]
        except Unclear as unclear:
            self.reader.ask(column, cell, unclear, (field, 0, "parts"))
            return [GAP] * count

    def _of_cells(self, given: list[tuple[Column, Cell]]) -> list[str]:
        pairs = []
        for column, cell in given:
            if cell.kind not in ("text", "number"):
                raise Unclear(f"The spreadsheet program made {cell.text} of it.", "Write it as text.")
            found = cells.AMOUNT.fullmatch(cell.text)
            if found is None:
                raise Unclear("This is not a number of parts.", "Write it as 2.")
            unit = found["unit"] or column.unit
            pairs.append((found["number"], "" if _means_parts(unit) else unit))
        return self._of_numbers(pairs)

    def _of_numbers(self, pairs: list[tuple[str, str]]) -> list[str]:
        """Parts of numbers that are all bare, or all weights in one unit."""
        numbers = [read_number(number, self.reader.decimal) for number, _ in pairs]
        if not any(unit for _, unit in pairs):
            return [decimal_text(number) for number in numbers]
        units = {cells.unit_of(unit) or unit.strip() for _, unit in pairs}
        unit = units.pop()
        if units or unit not in ("g", "kg", "oz", "lb", "%"):
            raise Unclear("These are not weights in one unit.", "Write all of them in grams, or as parts.")
        if not all(numbers):
            raise Unclear("There is nothing of one of them.", "Take it out, or write how much.")
        if unit != "%":
            self.total = sum(numbers, Fraction(0)), unit
        elif sum(numbers) != 100:
            raise Unclear("These do not add up to 100 %.", "Write them as parts, as 3:1.")
        return cells.whole_parts(numbers)

    def developer(self) -> dict[str, Any]:
        """Ratio, product and others; gaps where the table does not say them for certain."""
        reader = self.reader

        def strength(cell: Cell, column: Column) -> str:
            bare = re.fullmatch(r"[0-9]{1,2}(?:[.,][0-9])?", cell.text)
            unit = column.unit or ("vol" if set(plain(column.header).split()) & words("volume") else "")
            if bare and not unit:
                raise Unclear("Is this a strength in volumes?", f"Write it as {cell.text} volume.")
            return self.shelf.developer(f"{cell.text} {unit}" if bare else cell.text, reader.row)

        def others(cell: Cell, _: Column) -> list[str]:
            pieces = [each for each in re.split(r"\s*[;,/+\n]\s*", cell.text) if each]
            return [self.shelf.developer(each, reader.row) for each in pieces]

        found = {
            "ratio": reader.take("developer.ratio", lambda cell, _: cells.read_ratio(cell, reader.decimal)),
            "product": reader.take("developer.product", strength),
            "also": reader.take("developer.also", others),
        }
        by_weight = reader.take("developer.amount", self._ratio_by_weight)
        if found["ratio"] is None:
            found["ratio"] = by_weight
        elif (
            by_weight not in (None, GAP)
            and found["ratio"] != GAP
            and _value(by_weight) != _value(found["ratio"])
        ):
            column, cell = next(each for each in reader.cells("developer.ratio"))
            reader.ask(column, cell, Unclear("The weights give another ratio."), ("developer", "ratio"))
            found["ratio"] = GAP
        return {key: value for key, value in found.items() if value is not None}

    def _ratio_by_weight(self, cell: Cell, column: Column) -> str:
        weight = cells.weight_of(cell, column.unit, self.reader.decimal)
        if weight is None or self.total is None or weight[1] != self.total[1] or not self.total[0]:
            question = "A ratio needs the lighteners' weights in the same unit."
            raise Unclear(question, "Write the ratio, as 1:1.5.")
        value = weight[0] / self.total[0]
        try:
            return f"1:{decimal_text(value)}"
        except Unclear:
            return f"{value.denominator}:{value.numerator}"

    def additives(self) -> list[dict[str, Any]]:
        """Additives with their ratio, each from its own column or cell."""
        made: list[dict[str, Any]] = []
        ratios = self.reader.cells("additives.ratio")
        for at, (column, cell) in enumerate(self.reader.cells("additives")):
            if not cell.text:
                continue
            ratio_cell = ratios[at] if at < len(ratios) else None
            for piece in re.split(r"\s*[;\n]\s*|\s+\+\s+", cell.text):
                made.append(self._additive(piece, column, cell, ratio_cell, len(made)))
        return made

    def _additive(
        self, text: str, column: Column, cell: Cell, ratio: tuple[Column, Cell] | None, at: int
    ) -> dict[str, Any]:
        kinds = ("additive", "toner")
        found = None if self.shelf.known_quietly(text, kinds) else WITH_RATIO.fullmatch(text)
        made: dict[str, Any] = {"product": GAP, "ratio": GAP}
        try:
            made["product"] = self.shelf.product(found["name"] if found else text, kinds, self.reader.row)
        except Unclear as unclear:
            self.reader.ask(column, cell, unclear, ("additives", at, "product"))
        try:
            if found:
                made["ratio"] = cells.read_ratio(Cell(found["ratio"]), self.reader.decimal)
            elif ratio is not None and ratio[1].text:
                column, cell = ratio
                made["ratio"] = cells.read_ratio(cell, self.reader.decimal)
        except Unclear as unclear:
            self.reader.ask(column, cell, unclear, ("additives", at, "ratio"))
        return made


def _means_parts(unit: str) -> bool:
    return plain(unit) in words("parts")


def weight_like(given: tuple[Column, Cell]) -> bool:
    """Whether a cell of parts holds a weight."""
    found = cells.AMOUNT.fullmatch(given[1].text)
    return found is not None and cells.unit_of(found["unit"] or given[0].unit) is not None


def _value(ratio: str) -> Fraction:
    left, right = (Fraction(side) for side in ratio.split(":"))
    return right / left
