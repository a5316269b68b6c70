"""One file's text and, for every key and value in it, the place where it stands."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cache, reduce
from operator import getitem
from struct import Struct
from typing import Any

from bowlbook.reading.finding import Finding, Severity
from bowlbook.reading.guard import CONTROL
from bowlbook.reading.place import Place

Loc = tuple[str | int, ...]
"""The way to a value: keys and list positions from the top, as ``("lighteners", 0, "parts")``."""

Unquoted = tuple[str, str] | None
"""A finding's message and mend without what is private in them, where anything is."""

OFFSET = Struct("I")
"""An offset, as it is held."""
EXCERPT_WIDTH = 160
EARLY = 60
"""Lines at the top that are shown without a mask of the whole text, where nothing before them is masked."""


@dataclass(slots=True)
class Source:
    """``private`` names the keys whose values no finding that travels may quote; ``known`` all keys that an
    entry may have: what is behind any other key is never quoted. None: every key is known, or the entry was
    validated and ``unknown`` says which are not. ``data`` is the file's mapping, or None where it could not
    be read. Not changed after reading and validating.

    ``faulty``: ways to values that already have a finding and count as not read. ``unknown``: ways to keys
    that the entry may not have where they stand; None until it was validated. ``misshapen``: ways to values
    where private keys belong and no keys were written, as in ``pack: 39.00``: quoted like a private value.

    ``places``: the offset in the text of each value and before it of its key, in the text's order: a mapping
    or list before what is in it. Held as bytes, since few are ever asked for.
    """

    path: str
    text: str
    private: frozenset[str] = frozenset()
    data: dict[str, Any] | None = None
    places: bytes = b""
    known: frozenset[str] | None = None
    faulty: frozenset[Loc] = frozenset()
    unknown: frozenset[Loc] | None = None
    misshapen: frozenset[Loc] = frozenset()
    _lines: dict[object, list[str]] = field(default_factory=dict, repr=False, compare=False)
    _found: dict[Loc, tuple[int, int | None]] = field(default_factory=dict, repr=False, compare=False)
    _texts: tuple[str, str] | None = field(default=None, repr=False, compare=False)

    def place_of(self, loc: Loc, *, key: bool = False) -> Place:
        """The place of a value (or of its key); of the nearest parent where it is missing."""
        return self._place_at(self.offset_of(loc, key=key))

    def _place_at(self, offset: int) -> Place:
        line_end = self.text.rfind("\n", 0, offset)
        return Place(self.path, self.text.count("\n", 0, offset) + 1, offset - line_end)

    def offset_of(self, loc: Loc, *, key: bool = False) -> int:
        """How many characters of the text are before the place that `place_of` gives."""
        if loc not in self._found:  # a hundred recipes may contradict one rule of the house
            self._found[loc] = self._numbers(loc)
        of_value, of_key = self._found[loc]
        number = of_key if key and of_key is not None else of_value
        return int(OFFSET.unpack_from(self.places, number * OFFSET.size)[0]) if self.places else 0

    def _numbers(self, loc: Loc) -> tuple[int, int | None]:
        """Which of the places is that of a value, or of its nearest parent, and which that of its key."""
        value, of_value = self.data, 0
        of_key = None
        for step in loc:
            of_key = None
            if isinstance(value, dict) and step in value:
                before = list(value).index(step)
                of_key = of_value + 1 + before + _count_in([*value.values()][:before])
                of_value = of_key + 1
            elif isinstance(value, list) and isinstance(step, int) and step < len(value):
                of_value += 1 + _count_in(value[:step])
            else:
                break
            value = value[step]
        return of_value, of_key

    def place_in(self, loc: Loc, start: int, piece: str) -> Place:
        """The place of a piece of a text's value that begins at ``start`` in it.

        The text's own place where it is on that line, or where the piece is not written in the file as in the
        value: folded, or with backslash codes.
        """
        value = value_at(self.data, loc)
        begin = self.offset_of(loc)
        own, at = self._place_at(begin), begin - 1
        for _ in range(value.count(piece, 0, start + len(piece))):
            at = self.text.find(piece, at + 1)
            if at < 0:
                return own
        place = self._place_at(at)
        return own if place.line == own.line else place

    def texts(self) -> tuple[str, str]:
        """All texts in the data, with line ends between them: those that may travel, and the private ones.

        Gathered once: several checks look through them.
        """
        if self._texts is None:
            public: list[str] = []
            private: list[str] = []
            _gather(self.data, self.private, public, private)
            self._texts = "\n".join(public), "\n".join(private)
        return self._texts

    def is_private(self, loc: Loc) -> bool:
        """Whether a value on this way must not be quoted outside its author's own screen."""
        return any(step in self.private for step in loc)

    def is_unknown(self, loc: Loc) -> bool:
        """Whether any key on this way is unknown to entries: its value is never quoted."""
        known = self.known
        return known is not None and any(isinstance(step, str) and step not in known for step in loc)

    def excerpt(self, line: int, *, private: bool = False) -> str:
        """The numbered line for a finding: what is behind private and unknown keys and control signs masked.

        Columns are kept. ``private``: what is behind private keys is shown.
        """
        names = frozenset() if private else self.private
        known = self.known if self.unknown is None else None
        ways = (self.unknown or frozenset()) | (frozenset() if private else self.misshapen)
        state = (names, known, ways)
        if state not in self._lines:
            if 1 <= line <= EARLY and known is None and not ways:
                first = self.text.split("\n", line)[:line]
                if len(first) == line and _first_private_key("\n".join(first), names) is None:
                    return _shown(first[-1])
            starts = [self.place_of(way, key=True)[1:] for way in ways if self._numbers(way)[1] is not None]
            self._lines[state] = mask(self.text, names, known, starts)
        lines = self._lines[state]
        return _shown(lines[line - 1]) if 1 <= line <= len(lines) else ""

    def finding_at(
        self,
        place: Place,
        code: str,
        message: str,
        mend: str,
        severity: Severity = "error",
        unquoted: Unquoted = None,
    ) -> Finding:
        """A finding at a place of this file, with its line."""
        shown = *(unquoted or (message, mend)), self.excerpt(place.line)
        plain = message, mend, self.excerpt(place.line, private=True)
        return Finding(place, code, *shown, severity, None if plain == shown else plain)

    def finding(
        self, loc: Loc, code: str, message: str, mend: str, *, key: bool = False, unquoted: Unquoted = None
    ) -> Finding:
        """An error at the value on this way, or at its key."""
        return self.finding_at(self.place_of(loc, key=key), code, message, mend, unquoted=unquoted)

    def objection(
        self, loc: Loc, message: str, mend: str, *, severity: Severity = "error", unquoted: Unquoted = None
    ) -> Finding:
        """What a check finds at the value on this way; the code is added by who runs the check."""
        return self.finding_at(self.place_of(loc), "", message, mend, severity, unquoted)


def value_at(data: Any, loc: Loc) -> Any:
    """The value on this way of keys and list indexes."""
    return reduce(getitem, loc, data)


def texts_in(value: object, loc: Loc = ()) -> Iterator[tuple[Loc, str]]:
    """Every text in a value, with the way to it, in order."""
    if isinstance(value, str):
        yield loc, value
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from texts_in(inner, (*loc, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from texts_in(inner, (*loc, index))


def _count(value: Any) -> int:
    """How many places there are in a value: its own, and those of what is in it."""
    if isinstance(value, dict):
        return 1 + len(value) + _count_in(value.values())
    return 1 + _count_in(value) if isinstance(value, list) else 1


def _count_in(values: Iterable[Any]) -> int:
    return sum([1 if type(each) is str else _count(each) for each in values])


def _gather(value: object, keys: frozenset[str], public: list[str], private: list[str]) -> None:
    """Add every text in a value; what stands behind one of the private ``keys`` is private, at any depth."""
    if isinstance(value, dict):
        for key, inner in value.items():
            found = private if key in keys else public
            if isinstance(inner, str):  # as most are: no call for each of them
                found.append(inner)
            else:
                _gather(inner, keys, found, private)
    elif isinstance(value, list):
        for inner in value:
            _gather(inner, keys, public, private)
    elif isinstance(value, str):
        public.append(value)


def _shown(line: str) -> str:
    return CONTROL.sub("\N{REPLACEMENT CHARACTER}", line[:EXCERPT_WIDTH])


def mask(
    text: str,
    private: frozenset[str],
    known: frozenset[str] | None = None,
    starts: Iterable[tuple[int, int]] = (),
) -> list[str]:
    """The text's lines with everything behind a private key turned into dots.

    Works on the text alone, so that it also holds where YAML could not be parsed: from the key to the
    end of its line, and on until a shallower line begins with a key while no quotation is open. A key
    written with backslash codes counts as private. ``known``: everything behind any other key is masked too.
    ``starts``: line and column, counting from 1, of more keys behind which everything is masked.
    """
    lines = text.split("\n")
    key = _private_key(private) if private else None
    more = {line - 1: column - 1 for line, column in sorted(starts, reverse=True)}
    shown: list[str] = []
    # While ``inside`` a hidden value, each line is masked; only indentation and quotes show where it ends.
    inside: tuple[int, bool] | None = None
    open_quote = ""
    if known is None and not more:
        first = _first_private_key(text, private)
        if first is None:
            return lines
        shown = lines[: text.count("\n", 0, first.start())]  # it may begin with a line end
    for number, line in enumerate(lines[len(shown) :], len(shown)):
        if inside is not None:
            if open_quote or not _ends(line, *inside):
                open_quote = open_quote_of(line, open_quote)
                shown.append(_dots(line))
                continue
            inside = None
        start = min(_hidden_from(line, key, known, more.get(number)), default=None)
        if start is None:
            shown.append(line)
            continue
        first_sign = len(line) - len(line.lstrip(" -"))
        in_block = line.find(":", first_sign) == start - 1
        inside = (first_sign if in_block else _indent(line)), in_block
        open_quote = open_quote_of(line[start:])
        gap = OPEN.match(line, start)  # nothing was written yet; a comment behind it may still name somebody
        seen = gap.end() if gap is not None else start
        shown.append(line[:seen] + _dots(line[seen:]))
    return shown


def _hidden_from(
    line: str, key: re.Pattern[str] | None, known: frozenset[str] | None, unknown_at: int | None
) -> Iterator[int]:
    """Where in a line something begins that is to be masked."""
    found = key.search(line) if key is not None else None
    if found is not None:
        yield found.end()
    if unknown_at is not None:
        colon = line.find(":", unknown_at)
        yield colon + 1 if colon >= 0 else unknown_at
    if known is not None:
        for each in re.finditer(KEY_LIKE, line):
            name = each[1].strip(" \t\"'")
            if name and name not in known and not re.fullmatch(r"[\d.\s]+", name):
                yield each.end()
                return
        word = re.match(NO_COLON, line)
        if word is not None and (word[1] not in known or (key is not None and key.search(f"{word[1]}:"))):
            yield word.end(1)


OPEN = re.compile(r"\s*\?\?\?(?![^\s,}])")
"""A value that is not filled in yet."""

NO_COLON = r"\s*([A-Za-z_]+)(?=[\s=])[^:]*$"
"""A line that begins like a key and has no colon, as where it was forgotten."""

KEY_LIKE = r"(?:^(?:\s*[-?]\s)*+|[{}\[\],])([^{}\[\],:]*+):"
"""What may be a key: first in its line, in a list or in brackets; a space behind its colon may be missing."""


def _ends(line: str, inside: int, in_block: bool) -> bool:
    """Whether a line begins something else than what is masked behind a key in that column.

    A list that is the value of a key may begin in the key's own column.
    """
    if not re.match(ANY_KEY, line):
        return False
    if in_block and line.lstrip(" ").startswith("-"):
        return _indent(line) < inside
    return _indent(line) <= inside


@cache
def _private_key(private: frozenset[str]) -> re.Pattern[str]:
    """What a private key looks like, with the colon behind it."""
    names = "|".join(sorted(map(re.escape, private)))
    return re.compile(rf"""(?:^|[\s{{,?-])(?:(["']?)(?:{names})\1|"[^"]*\\[^"]*")\s*:""")


def _first_private_key(text: str, private: frozenset[str]) -> re.Match[str] | None:
    """The first private key in a text. The pattern, which takes long, begins where it can be at all."""
    places = [0] if private and "\\" in text else [at for at in map(text.find, private) if at >= 0]
    # A private name may have a quotation mark before it, and that the sign that ends what was before.
    return _private_key(private).search(text, max(min(places) - 2, 0)) if places else None


ANY_KEY = r"""\s*(?:-\s|["']?[\w -]+["']?\s*:(?:\s|$))"""
"""What begins a line that is a key or in a list. These are compiled where a line is masked: many books never
need them."""


def _indent(line: str) -> int:
    """How many spaces are before the line's first character."""
    return len(line) - len(line.lstrip(" "))


def open_quote_of(text: str, quote: str = "") -> str:
    """The quotation mark that is still open at the end of the text."""
    for sign in text:
        if quote:
            quote = "" if sign == quote else quote
        elif sign in "\"'":
            quote = sign
    return quote


def _dots(text: str) -> str:
    return re.sub(r"[^\s]", "·", text)
