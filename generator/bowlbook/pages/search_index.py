"""The search index: a sorted word list, and for each word the entries that have it; read by ``find.js``.

Made when the site is built, so that the phone answers as soon as the file is read.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import Any, NamedTuple

from bowlbook.cache.digest import digest_of
from bowlbook.entries.facets import FACETS
from bowlbook.entries.trade_word import TradeWord, trade_words
from bowlbook.figures.head import DOMAINS
from bowlbook.pages.page import SearchEntry
from bowlbook.pages.search_words import facet_phrase
from bowlbook.reading.search_word import words_of

PIECE = "Page"
"""The kind of pages by hand and of their paragraphs. Other names of these are found by their words alone."""
NEW = 6
"""How many of the newest changes an empty search shows."""


class IndexEntry(NamedTuple):
    """One entry of the index, made by `indexed`: ``entry`` has no text, its words stand for it.

    ``words``: three texts, of its title, its other names, and its text, with each word where it comes first.
    ``of_blend``: see `bowlbook.pages.search_actions.Action`. ``digest``: of all the rest.
    """

    address: str
    entry: SearchEntry
    words: tuple[str, ...]
    of_blend: str = ""
    digest: bytes = b""


def indexed(address: str, entry: SearchEntry, of_blend: str = "") -> IndexEntry:
    """An entry of the index with its words."""
    words: list[str] = []
    seen: set[str] = set()
    for text in (entry.title, ". ".join(entry.names), entry.text):
        new = dict.fromkeys(word for word in words_of(text) if word not in seen)
        seen.update(new)
        words.append(" ".join(new))
    made = IndexEntry(address, entry._replace(text=""), tuple(words), of_blend)
    return made._replace(digest=digest_of(repr(made)))


def search_index(entries: Iterable[IndexEntry], own_words: Sequence[TradeWord]) -> dict[str, Any]:
    """The index as plain data. ``own_words``: the house's, which come before the trade's.

    ``entries``: address, title, kind's number, tag, note, and, where it has any, strip and place on a blend.
    ``words``: all words, sorted by code unit, with spaces between. ``names``, ``also`` and ``others``: for
    each word the entries that have it in their title, in another name, or elsewhere, as steps from one
    entry's number to the next. ``typed``: what people type, and its meanings as words of the index.
    ``facets``: phrases, and which facet and value of a head they name. ``new``: what changed last.
    """
    listed = list(entries)
    kinds = list(dict.fromkeys(each.entry.kind for each in listed))
    lists: tuple[dict[str, list[int]], ...] = ({}, {}, {})
    for number, each in enumerate(listed):
        for found, of_entry in zip(lists, each.words, strict=True):
            for word in of_entry.split():
                found.setdefault(word, []).append(number)
    # JavaScript compares texts by UTF-16 code unit.
    words = sorted({word for found in lists for word in found}, key=lambda word: word.encode("utf-16-be"))
    names, also, others = ([_steps(found.get(word, [])) for word in words] for found in lists)
    small = trade_words().small
    return {
        "kinds": kinds,
        "entries": [_row(each, kinds.index(each.entry.kind)) for each in listed],
        "words": " ".join(words),
        "names": names,
        "also": also,
        "others": others,
        "small": " ".join(dict.fromkeys(word for each in small for word in words_of(each))),
        "typed": _typed((*own_words, *_other_names(listed), *trade_words().words), set(words)),
        "facets": _facets(),
        "new": _new(listed),
    }


def _row(each: IndexEntry, kind: int) -> list[Any]:
    entry = each.entry
    strip = [entry.strip[0], entry.strip[1], int(entry.strip[2])] if entry.strip else 0
    row = [each.address, entry.title, kind, entry.tag, entry.note, strip, each.of_blend]
    while row[-1] in ("", 0):
        row.pop()
    return row


def _typed(listed: Iterable[TradeWord], known: set[str]) -> dict[str, list[str]]:
    """What people type, and its meanings; those with a word that no entry has are left out."""
    found: dict[str, list[str]] = {}
    for each in listed:
        means = [words for meaning in each.means if known.issuperset(words := words_of(meaning))]
        for typed in each.typed:
            place = found.setdefault(" ".join(words_of(typed)), [])
            place += [text for words in means if (text := " ".join(words)) not in place]
    return {typed: means for typed, means in found.items() if typed and means}


def _other_names(listed: Iterable[IndexEntry]) -> Iterator[TradeWord]:
    for each in listed:
        if each.entry.names and each.entry.kind != PIECE:
            yield TradeWord(typed=each.entry.names, means=(each.entry.title,))


def _facets() -> dict[str, list[str]]:
    found = {}
    for name in FACETS:
        for value in DOMAINS[name]:
            found[" ".join(words_of(facet_phrase(name, value)))] = [name, str(value)]
    # Of densities alone, and so said without the word.
    return found | {word: ["density", word] for word in ("thin", "thick")}


def _new(listed: Sequence[IndexEntry]) -> list[list[Any]]:
    changed = [
        (each.entry.change, number)
        for number, each in enumerate(listed)
        if each.entry.change and each.entry.change.what
    ]
    newest = sorted(changed, key=lambda pair: (pair[0].day, -pair[1]), reverse=True)[:NEW]
    return [[number, change.day, change.what] for change, number in newest]


def _steps(numbers: list[int]) -> list[int]:
    return [number - before for before, number in zip([0, *numbers], numbers, strict=False)]
