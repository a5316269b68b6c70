"""The words of `words.yml`, looked up without regard to accents, capitals and signs."""

import re
import unicodedata
from functools import cache
from pathlib import Path
from typing import Any

from bowlbook.reading.document import read_text

SIGNS = re.compile(r"[^a-z0-9%]+")


def simplified(text: str) -> str:
    """A text in small letters without accents, its signs as single spaces."""
    text = text.replace("ß", "ss").replace("ø", "o").replace("Ø", "O").replace("₂", "2")
    marks = unicodedata.normalize("NFKD", text.casefold())  # splits accents off their letters
    return SIGNS.sub(" ", "".join(each for each in marks if not unicodedata.combining(each))).strip()


@cache
def _all() -> dict[str, Any]:
    path = Path(__file__).with_name("words.yml")
    source, findings = read_text(path.read_text(encoding="utf-8"), path.name, frozenset())
    assert source.data is not None and not findings, findings
    return source.data


@cache
def columns(kind: str) -> dict[str, tuple[str, ...]]:
    """Of each simplified column name of a recipe's or product's table: the fields it may be."""
    found: dict[str, tuple[str, ...]] = {}
    for field, words in _all()[kind].items():
        for word in dict.fromkeys(map(simplified, words)):
            found[word] = (*found.get(word, ()), field)
    for field in fields(kind):
        found.setdefault(simplified(field), (field,))
    return found


@cache
def fields(kind: str) -> tuple[str, ...]:
    """Every field that a column of a recipe's or product's table can be."""
    return tuple(_all()[kind])


@cache
def words(name: str) -> frozenset[str]:
    """The simplified words of one list, such as those for half."""
    return frozenset(map(simplified, _all()[name]))


@cache
def titles() -> re.Pattern[str]:
    """A person's title and a name behind it."""
    each = "|".join(map(re.escape, _all()["titles"]))
    return re.compile(rf"(?<!\w)(?i:{each})\.?\s+[^\W\d_a-z]\w+")


@cache
def meanings(of: str) -> dict[str, str]:
    """Of each simplified word that a cell may hold: the book's own word. ``of``: form, texture …"""
    return {
        simplified(word): key for key, words in _all()["values"].get(of, {}).items() for word in (key, *words)
    }
