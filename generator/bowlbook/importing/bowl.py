"""What a recipe of a table mixes: its lighteners or toners with their parts, its developer and additives."""

import re
from fractions import Fraction
from itertools import zip_longest

from bowlbook.entries.gap import GAP
from bowlbook.importing import cells
from bowlbook.importing.draft import RowReader
from bowlbook.importing.field_cell import FieldCell
from bowlbook.importing.number import Unclear, decimal_text, number_in
from bowlbook.importing.share import means_parts, shares_in
from bowlbook.importing.shelf import Shelf
from bowlbook.importing.words import simplified, words
from bowlbook.reading.amount import counted

WITH_RATIO = re.compile(r"(?P<name>.*[^\s:(])[\s:(]+(?P<ratio>[0-9.,]+\s*[:+]\s*[0-9.,]+)\)?")


class BowlReader:
    """What is mixed. ``total``: the weight of all lighteners and its unit, where the table gives weights."""

    def __init__(self, reader: RowReader, shelf: Shelf) -> None:
        self.reader = reader
        self.shelf = shelf
        self.total: tuple[Fraction, str] | None = None

    def shares(self, field: str) -> list[dict[str, str]]:
        """The lighteners or toners with their parts; a gap for each that is not certain."""
        kind = (field[:-1],)
        named = self.reader.filled(field)
        if not named:
            return [{"product": GAP, "parts": GAP}]
        ids: list[str] = []
        beside: list[tuple[str, str]] = []
        for cell in named:
            try:
                for name, number, unit in shares_in(cell, kind, self.shelf):
                    ids.append(self.shelf.product(name, kind, self.reader.row))
                    beside.append((number, unit))
            except Unclear as unclear:
                self.reader.ask(cell, unclear, (field, len(ids), "product"))
                ids.append(GAP)
                beside.append(("", ""))
        parts = self._parts(field, len(ids), beside)
        return [{"product": each, "parts": part} for each, part in zip(ids, parts, strict=True)]

    def _parts(self, field: str, count: int, beside: list[tuple[str, str]]) -> list[str]:
        """The parts, one for each product; gaps where they are not certain."""
        named, given = self.reader.filled(field), self.reader.filled(f"{field}.parts")
        inline = [(number, unit) for number, unit in beside if number]
        cell = next((each for each in given if cells.amount_in(each) is None), (given or named)[0])
        try:
            places = [[each.column.number for each in filled] for filled in (named, given)]
            if len(named) == len(given) and places[0] != places[1]:
                raise Unclear("The amount is not beside the product.", "Write both in columns of one number.")
            if inline and (given or len(inline) != count):
                raise Unclear("Parts are given here for some, or twice.", "Write the parts of each once.")
            if inline:
                return self._of_numbers(inline)
            if len(given) == count and (count > 1 or _weight_like(given[0])):
                return self._of_cells(given)
            if not given and count == 1:
                return ["1"]
            if len(given) != 1:
                raise Unclear("How many parts of each is not said.", "Write them as 2:1.")
            sides = cells.read_sides(cell)
            if len(sides) != count:
                question = f"{counted(len(sides), 'number')} for {counted(count, 'product')}."
                raise Unclear(question, "Write one number for each product, as 2:1.")
            return ["1"] if count == 1 else [decimal_text(side) for side in sides]
        except Unclear as unclear:
            self.reader.ask(cell, unclear, (field, 0, "parts"))
            return [GAP] * count

    def _of_cells(self, given: list[FieldCell]) -> list[str]:
        pairs = []
        for cell in given:
            if cell.kind not in ("text", "number"):
                raise Unclear(f"The spreadsheet program made {cell.text} of it.", "Write it as text.")
            found = cells.AMOUNT.fullmatch(cell.text)
            if found is None:
                raise Unclear("This is not an amount.", "Write it as 2, or as 30 g.")
            unit = found["unit"] or cell.unit
            pairs.append((found["number"], "" if means_parts(unit) else unit))
        return self._of_numbers(pairs)

    def _of_numbers(self, pairs: list[tuple[str, str]]) -> list[str]:
        """Parts from numbers without units, or from weights in one unit."""
        numbers = [number_in(number, self.reader.decimal) for number, _ in pairs]
        if not any(unit for _, unit in pairs):
            return [decimal_text(number) for number in numbers]
        units = {cells.unit_of(unit) or unit.strip() for _, unit in pairs}
        unit = units.pop()
        if units or unit not in ("g", "kg", "oz", "lb", "%"):
            raise Unclear("These are not weights in one unit.", "Write all of them in grams, or as parts.")
        if not all(numbers):
            raise Unclear("There is nothing of one of them.", "Take it out, or write how much.")
        # Only weights can be compared with the developer's weight later.
        if unit != "%":
            self.total = sum(numbers, Fraction(0)), unit
        elif sum(numbers) != 100:
            raise Unclear("These do not add up to 100 %.", "Write them as parts, as 3:1.")
        return cells.whole_parts(numbers)

    def developer(self) -> dict[str, object]:
        """Ratio, product and others; gaps where the table does not state them."""
        reader = self.reader

        def strength(cell: FieldCell) -> str:
            bare = re.fullmatch(r"[0-9]{1,2}(?:[.,][0-9])?", cell.text)
            header = simplified(cell.column.header).split()
            unit = cell.unit or ("vol" if words("volume").intersection(header) else "")
            if bare and not unit:
                mend = f"Write it as {cell.text} volume."
                raise Unclear("Is this a strength in volumes?", mend, answers=("volume", "%"))
            return self.shelf.developer(f"{cell.text} {unit}" if bare else cell.text, reader.row)

        def others(cell: FieldCell) -> list[str]:
            pieces = [each for each in re.split(r"\s*[;,/+\n]\s*", cell.text) if each]
            return [self.shelf.developer(each, reader.row) for each in pieces]

        ratio = reader.take("developer.ratio", cells.read_ratio)
        product = reader.take("developer.product", strength)
        also = reader.take("developer.also", others)
        by_weight = reader.take("developer.amount", self._ratio_by_weight)
        if ratio is None:
            ratio = by_weight
        elif by_weight is not None and GAP not in (ratio, by_weight) and _value(by_weight) != _value(ratio):
            cell = reader.cells("developer.ratio")[0]
            reader.ask(cell, Unclear("The weights give another ratio."), ("developer", "ratio"))
            ratio = GAP
        found = {"ratio": ratio, "product": product, "also": also}
        return {key: value for key, value in found.items() if value is not None}

    def _ratio_by_weight(self, cell: FieldCell) -> str:
        weight = cells.weight_of(cell)
        if weight is None or self.total is None or weight[1] != self.total[1] or not self.total[0]:
            question = "A ratio needs the lighteners' weights in the same unit."
            raise Unclear(question, "Write the ratio, as 1:1.5.")
        value = weight[0] / self.total[0]
        try:
            return f"1:{decimal_text(value)}"
        except Unclear:
            return f"{value.denominator}:{value.numerator}"

    def additives(self) -> list[dict[str, str]]:
        """Additives with their ratio, each from its own column or cell."""
        made: list[dict[str, str]] = []
        ratios = self.reader.cells("additives.ratio")
        # The first column of ratios is that of the first column of additives, and so on.
        for cell, ratio in zip_longest(self.reader.cells("additives"), ratios):
            if cell is None or not cell.text:
                continue
            for piece in re.split(r"\s*[;\n]\s*|\s+\+\s+", cell.text):
                made.append(self._additive(piece, cell, ratio, len(made)))
        return made

    def _additive(self, text: str, cell: FieldCell, ratio: FieldCell | None, at: int) -> dict[str, str]:
        kinds = ("additive", "toner")
        found = None if self.shelf.known_quietly(text, kinds) else WITH_RATIO.fullmatch(text)
        made: dict[str, str] = {"product": GAP, "ratio": GAP}
        try:
            made["product"] = self.shelf.product(found["name"] if found else text, kinds, self.reader.row)
        except Unclear as unclear:
            self.reader.ask(cell, unclear, ("additives", at, "product"))
        try:
            if found:
                made["ratio"] = cells.read_dose(cell._replace(text=found["ratio"], kind="text"))
            elif ratio is not None and ratio.text:
                cell = ratio
                made["ratio"] = cells.read_dose(cell)
        except Unclear as unclear:
            self.reader.ask(cell, unclear, ("additives", at, "ratio"))
        return made


def _weight_like(cell: FieldCell) -> bool:
    """Whether a cell of parts holds a weight."""
    found = cells.amount_in(cell)
    return found is not None and cells.unit_of(found["unit"] or cell.unit) is not None


def _value(ratio: str) -> Fraction:
    left, right = (Fraction(side) for side in ratio.split(":"))
    return right / left
