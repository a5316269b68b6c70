"""What a recipe of a table mixes: its lighteners or toners with their parts, its developer and additives."""

import re
from fractions import Fraction
from typing import Any

from bowlbook.entries.gap import GAP
from bowlbook.importing import cells
from bowlbook.importing.columns import Column
from bowlbook.importing.draft import RowReader
from bowlbook.importing.number import Unclear, decimal_text, number_in
from bowlbook.importing.share import means_parts, shares_in
from bowlbook.importing.shelf import Shelf
from bowlbook.importing.table import Cell
from bowlbook.importing.words import simplified, words
from bowlbook.reading.amount import counted

WITH_RATIO = re.compile(r"(?P<name>.*[^\s:(])[\s:(]+(?P<ratio>[0-9.,]+\s*[:+]\s*[0-9.,]+)\)?")


class BowlReader:
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
                for name, number, unit in shares_in(cell, kind, self.shelf):
                    ids.append(self.shelf.product(name, kind, self.reader.row))
                    beside.append((number, unit))
            except Unclear as unclear:
                self.reader.ask(column, cell, unclear, (field, len(ids), "product"))
                ids.append(GAP)
                beside.append(("", ""))
        parts = self._parts(field, len(ids), beside)
        return [{"product": each, "parts": part} for each, part in zip(ids, parts, strict=True)]

    def _parts(self, field: str, count: int, beside: list[tuple[str, str]]) -> list[str]:
        """As many parts as there are products."""
        given = [(column, cell) for column, cell in self.reader.cells(f"{field}.parts") if cell.text]
        inline = [(number, unit) for number, unit in beside if number]
        named = [each for each in self.reader.cells(field) if each[1].text]
        column, cell = next((each for each in given if not _is_amount(each[1])), (given or named)[0])
        try:
            places = [[each.number for each, _ in filled] for filled in (named, given)]
            if len(named) == len(given) and places[0] != places[1]:
                raise Unclear("The amount is not beside the product.", "Write both in columns of one number.")
            if inline and (given or len(inline) != count):
                raise Unclear("Parts are given here for some, or twice.", "Write the parts of each once.")
            if inline:
                return self._of_numbers([(number, unit) for number, unit in inline])
            if len(given) == count and (count > 1 or _weight_like(given[0])):
                return self._of_cells(given)
            if not given and count == 1:
                return ["1"]
            if len(given) != 1:
                raise Unclear("How many parts of each is not said.", "Write them as 2:1.")
            sides = cells.read_sides(cell, column.unit, self.reader.decimal)
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
                raise Unclear("This is not an amount.", "Write it as 2, or as 30 g.")
            unit = found["unit"] or column.unit
            pairs.append((found["number"], "" if means_parts(unit) else unit))
        return self._of_numbers(pairs)

    def _of_numbers(self, pairs: list[tuple[str, str]]) -> list[str]:
        """Parts of numbers that are all bare, or all weights in one unit."""
        numbers = [number_in(number, self.reader.decimal) for number, _ in pairs]
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
            unit = column.unit or ("vol" if set(simplified(column.header).split()) & words("volume") else "")
            if bare and not unit:
                mend = f"Write it as {cell.text} volume."
                raise Unclear("Is this a strength in volumes?", mend, answers=("volume", "%"))
            return self.shelf.developer(f"{cell.text} {unit}" if bare else cell.text, reader.row)

        def others(cell: Cell, _: Column) -> list[str]:
            pieces = [each for each in re.split(r"\s*[;,/+\n]\s*", cell.text) if each]
            return [self.shelf.developer(each, reader.row) for each in pieces]

        def ratio(cell: Cell, column: Column) -> str:
            return cells.read_ratio(cell, column.unit, reader.decimal)

        found = {
            "ratio": reader.take("developer.ratio", ratio),
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
                made["ratio"] = cells.read_dose(Cell(found["ratio"]), column.unit, self.reader.decimal)
            elif ratio is not None and ratio[1].text:
                column, cell = ratio
                made["ratio"] = cells.read_dose(cell, column.unit, self.reader.decimal)
        except Unclear as unclear:
            self.reader.ask(column, cell, unclear, ("additives", at, "ratio"))
        return made


def _is_amount(cell: Cell) -> bool:
    return cell.kind in ("text", "number") and cells.AMOUNT.fullmatch(cell.text) is not None


def _weight_like(given: tuple[Column, Cell]) -> bool:
    """Whether a cell of parts holds a weight."""
    found = cells.AMOUNT.fullmatch(given[1].text)
    return found is not None and cells.unit_of(found["unit"] or given[0].unit) is not None


def _value(ratio: str) -> Fraction:
    left, right = (Fraction(side) for side in ratio.split(":"))
    return right / left
