"""Words as search compares them: of a page when the site is built, of a query on the phone (``words.js``)."""

import re
import unicodedata

UNITS = {
    "level": "level", "lvl": "level", "lv": "level", "l": "level",
    "volume": "volume", "vol": "volume", "v": "volume",
    "lift": "lift",
    "%": "percent", "percent": "percent",
    "oz": "oz", "ounce": "oz",
    "g": "g", "gr": "g", "gram": "g",
}  # fmt: skip
"""What is written beside a number, and its unit. A number and its unit are one word, as ``20volume``."""
BEFORE = ("level", "volume", "lift")
"""Units that may stand before their number, as in level 4. Levels after it are levels of lift."""

TOKEN = re.compile(r"[0-9]+(?:[.,][0-9]+)?|[^\W0-9_]+|%")
OWNED = re.compile(r"['’]s(?![^\W_])")
NOT_ASCII = re.compile(r"[^\x00-\x7f]+")


def _without_accents(found: re.Match[str]) -> str:
    return "".join(sign for sign in found[0] if unicodedata.category(sign)[0] != "M")


def _singular(word: str) -> str:
    """A plain plural without its ending: the S-stemmer (Harman 1991, from memory), and glosses, boxes."""
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies") and len(word) > 4:
        return f"{word[:-3]}y"
    return word[:-2] if word.endswith(("sses", "xes", "ches", "shes")) else word[:-1]


def words_of(text: str) -> tuple[str, ...]:
    """The words of a text: lower case, no accents, plurals as singulars, numbers joined to their units."""
    bare = NOT_ASCII.sub(_without_accents, unicodedata.normalize("NFD", text.lower()))
    found = [_singular(each).replace(",", ".") for each in TOKEN.findall(OWNED.sub("s", bare))]
    words = []
    place = 0
    while place < len(found):
        joined = _with_unit(found[place], found[place + 1]) if place + 1 < len(found) else None
        words.append(joined or found[place])
        place += 2 if joined else 1
    return tuple(words)


def _with_unit(one: str, other: str) -> str | None:
    """Two words as a number with its unit, None where they are not one."""
    if other[0].isdecimal() and UNITS.get(one) in BEFORE:
        return other + UNITS[one]
    if one[0].isdecimal() and other in UNITS:
        return one + ("lift" if UNITS[other] == "level" else UNITS[other])
    return None
