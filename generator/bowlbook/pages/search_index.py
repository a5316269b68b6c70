"""The search index: a sorted word list, and for each word the entries that contain it; read by ``search.js``.

Used instead of the theme's search, which builds its index on the phone: here that is done at build time, so
the phone answers as soon as the file is read.
"""

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from bowlbook.pages.page import SearchEntry


@dataclass(frozen=True, slots=True)
class IndexEntry:
    """One entry of the index: its address, kind of page, the line under its name, and its text."""

    address: str
    kind: str
    note: str
    entry: SearchEntry


NOT_ASCII = re.compile(r"[^\x00-\x7f]+")


def _without_accents(found: re.Match[str]) -> str:
    return "".join(sign for sign in found[0] if unicodedata.category(sign)[0] != "M")


@lru_cache(maxsize=65536)  # while serving, few texts change from one index to the next
def words_of(text: str) -> tuple[str, ...]:
    """The words of a text as search knows them: lower case, without accents, letters and digits only."""
    bare = NOT_ASCII.sub(_without_accents, unicodedata.normalize("NFD", text.lower()))
    return tuple(word for word in re.split(r"[\W_]+", bare) if word)


def search_index(entries: Iterable[IndexEntry]) -> dict[str, Any]:
    """The index as plain data.

    ``entries``: address, title, kind's number, note. ``words``: all words, sorted by code unit, with spaces
    between. ``names`` and ``others``: for each word the entries that have it in their title, or elsewhere, as
    steps from one entry's number to the next.
    """
    listed = list(entries)
    kinds = list(dict.fromkeys(each.kind for each in listed))
    names: dict[str, list[int]] = {}
    others: dict[str, list[int]] = {}
    for number, each in enumerate(listed):
        title = dict.fromkeys(words_of(each.entry.title))
        rest = dict.fromkeys(words_of(each.entry.text))
        for word in title:
            names.setdefault(word, []).append(number)
        for word in rest:
            if word not in title:
                others.setdefault(word, []).append(number)
    # JavaScript compares texts by UTF-16 code unit.
    words = sorted({*names, *others}, key=lambda word: word.encode("utf-16-be"))
    return {
        "kinds": kinds,
        "entries": [[each.address, each.entry.title, kinds.index(each.kind), each.note] for each in listed],
        "words": " ".join(words),
        # Steps between numbers are small, and small numbers make a small file.
        "names": [_steps(names.get(word, [])) for word in words],
        "others": [_steps(others.get(word, [])) for word in words],
    }


def _steps(numbers: list[int]) -> list[int]:
    return [number - before for before, number in zip([0, *numbers], numbers, strict=False)]
