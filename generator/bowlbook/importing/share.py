"""The products that a cell names, each with the number beside it."""

import re

from bowlbook.importing import cells
from bowlbook.importing.field_cell import FieldCell
from bowlbook.importing.number import Unclear
from bowlbook.importing.shelf import Shelf
from bowlbook.importing.words import simplified, words

LEAD_WITH_UNIT = re.compile(rf"(?P<number>{cells.CELL_NUMBER})\s*(?P<unit>[^\W\d_]+)\s+(?P<name>[^\W\d_].*)")
LEAD = re.compile(rf"(?P<number>{cells.CELL_NUMBER})\s*(?:[x×]\s*)?(?P<unit>)(?P<name>[^\W\d_].*)")
TAIL = re.compile(
    rf"(?P<name>.*?[^\s:(x×])\s*[:(x×]?\s*(?P<number>{cells.CELL_NUMBER})\s*(?P<unit>[^\W\d_]+)?\s*\)?"
)
CERTAIN = r"\s*[+&;\n]\s*"
"""Signs that part the products of a cell, whether they are known or not."""
Share = tuple[str, str, str]
"""A product's name, the number beside it, and the unit of that; both empty where there is none."""


def shares_in(cell: FieldCell, kinds: tuple[str, ...], shelf: Shelf) -> list[Share]:
    """The products that a cell names. Only where all of them are known, other signs than + part them."""
    text = cell.text
    if cell.kind != "text":
        raise Unclear("This is not a product's name.", "Write its name.")
    whole = _share(text, kinds, shelf)
    if shelf.known_quietly(whole[0], kinds):
        return [whole]
    for signs in (CERTAIN, r"\s*[/,]\s*", r"\s*:\s*"):
        pieces = [_share(each, kinds, shelf) for each in re.split(signs, text) if each]
        if len(pieces) > 1 and (
            signs == CERTAIN or all(shelf.known_quietly(each[0], kinds) for each in pieces)
        ):
            return pieces
    return [whole]


def _share(text: str, kinds: tuple[str, ...], shelf: Shelf) -> Share:
    """A name with the number before or behind it, unless that belongs to the name."""
    text = " ".join(text.split())
    if shelf.known_quietly(text, kinds):
        return text, "", ""
    for form in (LEAD_WITH_UNIT, LEAD, TAIL):
        found = form.fullmatch(text)
        if found is not None and _is_share(found, text, kinds, shelf):
            unit = found["unit"] or ""
            return found["name"], found["number"].strip(), "" if means_parts(unit) else unit
    return text, "", ""


def _is_share(found: re.Match[str], text: str, kinds: tuple[str, ...], shelf: Shelf) -> bool:
    """Whether a number beside a name is how much of it is taken, and not a part of the name."""
    unit = found["unit"]
    if unit and not means_parts(unit) and cells.unit_of(unit) is None:
        return False
    known = shelf.known_quietly(found["name"], kinds)
    return known or bool(unit) or "(" in text or bool(re.match(r"[0-9]+\s*[x×]", text))


def means_parts(unit: str) -> bool:
    """Whether a unit is a word for parts."""
    return simplified(unit) in words("parts")
