"""One file's text and, for every key and value in it, the place where it stands."""

import re
from dataclasses import dataclass, field
from typing import Any

from generator.reading.finding import Finding, Severity
from generator.reading.guard import CONTROL
from generator.reading.place import Place

Loc = tuple[str | int, ...]
"""The way to a value: keys and list positions from the top, as ``("lighteners", 0, "parts")``."""

EXCERPT_WIDTH = 160


@dataclass(slots=True)
class Source:
    """``values`` and ``keys`` map a way to (line, column), counting from 1.

    ``private`` names the keys whose values no finding may quote. ``data`` is the file's mapping, or None
    where it could not be read. Not changed after reading.
    """

    path: str
    text: str
    private: frozenset[str] = frozenset()
    data: dict[str, Any] | None = None
    values: dict[Loc, tuple[int, int]] = field(default_factory=dict)
    keys: dict[Loc, tuple[int, int]] = field(default_factory=dict)
    _masked: list[str] | None = None

    def place_of(self, loc: Loc, *, key: bool = False) -> Place:
        """The place of a value (or of its key); of the nearest parent where it is missing."""
        if key and loc in self.keys:
            return Place(self.path, *self.keys[loc])
        while loc and loc not in self.values:
            loc = loc[:-1]
        return Place(self.path, *self.values.get(loc, (1, 1)))

    def is_private(self, loc: Loc) -> bool:
        """Whether a value on this way must not be quoted."""
        return any(step in self.private for step in loc)

    def excerpt(self, line: int) -> str:
        """The numbered line for a finding: private values and control signs masked, each in its column."""
        if self._masked is None:
            self._masked = mask(self.text, self.private)
        if not 1 <= line <= len(self._masked):
            return ""
        return CONTROL.sub("\N{REPLACEMENT CHARACTER}", self._masked[line - 1][:EXCERPT_WIDTH])

    def finding_at(
        self, place: Place, code: str, message: str, mend: str, severity: Severity = "error"
    ) -> Finding:
        """A finding at a place of this file, with its line."""
        return Finding(place, code, message, mend, self.excerpt(place.line), severity)

    def finding(
        self,
        loc: Loc,
        code: str,
        message: str,
        mend: str,
        *,
        severity: Severity = "error",
        key: bool = False,
    ) -> Finding:
        """A finding at the value on this way, or at its key."""
        return self.finding_at(self.place_of(loc, key=key), code, message, mend, severity)


def mask(text: str, private: frozenset[str]) -> list[str]:
    """The text's lines with everything behind a private key turned into dots.

    Works on the text alone, so that it also holds where YAML could not be parsed: from the key to the
    end of its line, and on until a shallower line begins with a key while no quotation is open. A key
    written with backslash codes counts as private.
    """
    lines = text.split("\n")
    if not private:
        return lines
    names = "|".join(sorted(map(re.escape, private)))
    key = re.compile(rf"""(?:^|[\s{{,?-])(?:(["']?)(?:{names})\1|"[^"]*\\[^"]*")\s*:""")
    shown: list[str] = []
    inside: int | None = None
    open_quote = ""
    for line in lines:
        if inside is not None:
            ends = not open_quote and _indent(line) <= inside and ANY_KEY.match(line)
            if not ends:
                open_quote = open_quote_of(line, open_quote)
                shown.append(_dots(line))
                continue
            inside = None
        found = key.search(line)
        if found is None:
            shown.append(line)
            continue
        start = found.end()
        inside = _indent(line)
        open_quote = open_quote_of(line[start:])
        shown.append(line[:start] + _dots(line[start:]))
    return shown


ANY_KEY = re.compile(r"""\s*(?:-\s|["']?[\w -]+["']?\s*:(?:\s|$))""")


def _indent(line: str) -> int:
    """How many spaces stand before the line's first sign."""
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
