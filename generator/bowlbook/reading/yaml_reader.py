"""YAML text to plain mappings, lists and texts, each with its place: with `nodes` all that knows PyYAML.

Every scalar stays text: nothing is resolved to a number, a boolean or a date, so that ``1:2`` is a ratio and
``no`` a word. What YAML offers beyond mappings, lists and texts is refused. Source: YAML 1.2.2, core schema,
for what is empty.

The C parser's events are read one by one rather than composed to nodes: where the text breaks off, what came
before the break still gets its findings, and an alias or a tag is refused where it stands.
"""

from array import array
from collections.abc import Callable
from sys import intern
from typing import Any, NamedTuple

from yaml import (
    AliasEvent,
    CBaseLoader,
    DocumentStartEvent,
    MappingEndEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
    YAMLError,
)

from bowlbook.reading import guard
from bowlbook.reading.finding import Finding
from bowlbook.reading.place import Place
from bowlbook.reading.source import Loc, Source, Unquoted

EMPTY = {"", "~", "null", "Null", "NULL"}


class Scalar(NamedTuple):
    """A key or value as written: the offsets of its begin and end, whether without quotes, and its way."""

    start: int
    end: int
    plain: bool
    way: Loc


class SyntaxProblem(NamedTuple):
    """The parser's complaint: its words, and line and column, from 0, of its context and its problem."""

    context: str | None
    problem: str | None
    context_at: tuple[int, int] | None
    problem_at: tuple[int, int] | None


class _Stop(Exception):
    """A limit was passed: reading on would help nobody."""


class YamlReader:
    """Reads one source's text. `read` fills the source's data and places, and collects what is wrong.

    ``scalars``: every key and value, in order, where ``keep_scalars``. ``repeated``: ways to keys that stand
    twice. ``broken``: reading ended early, or something was refused; the source has no data then.
    """

    def __init__(self, source: Source, *, keep_scalars: bool) -> None:
        self.source = source
        self.keep_scalars = keep_scalars
        self.findings: list[Finding] = []
        self.scalars: list[Scalar] = []
        self.repeated: set[Loc] = set()
        self.broken = False
        self._marks: list[Any] = []
        self._way: list[str | int] = []
        """The keys and list positions that lead to what is being read."""
        self._count = 0
        self._refused = False
        # No scalar of a plain text is counted or looked at: there are two for each character at the most, and
        # none has an anchor, a tag or a backslash code.
        is_short = len(source.text) < guard.MAX_VALUES / 2
        self._is_plain = is_short and not any(sign in source.text for sign in "&!\\")

    def read(self) -> SyntaxProblem | None:
        """Read the text; the parser's complaint where it is not YAML."""
        parser = CBaseLoader(self.source.text)
        self._next: Callable[[], Any] = parser.get_event
        problem = root = None
        try:
            root = self._document()
        except _Stop:
            pass
        except YAMLError as error:
            self.broken = True
            problem = _problem(error)
        finally:
            parser.dispose()
        if not self.broken and isinstance(root, dict):
            self.source.data = root
            self.source.places = _places_of(self._marks)
            return problem
        self.source.places = _places_of(self._marks[:1])
        if not self.broken:
            self._no_entry(root)
        return problem

    def _document(self) -> Any:
        """The value of the only document; None where there is none."""
        root, seen = None, False
        while (event := self._next()) is not None:
            if type(event) is DocumentStartEvent:
                if seen:
                    self._refuse(event, "a second document (---)", "Put it in a file of its own.")
                    raise _Stop
                seen = True
                if event.version or event.tags:
                    self._refuse(event, "a directive (%)", "Delete that line.")
                root = self._value(self._next(), 0)
        return root

    def _value(self, event: Any, depth: int) -> Any:
        """The value that begins with an event. ``depth``: how many mappings and lists are open around it."""
        self._marks.append(event.start_mark)
        kind = type(event)
        if kind is ScalarEvent:
            if not self._is_plain:
                self._scalar(event)
            if self.keep_scalars:
                self._keep(event)
            text = event.value
            return None if text in EMPTY and not event.style else text
        if kind is AliasEvent:
            self._alias(event)
            return None
        self._open(event, depth)
        if kind is SequenceStartEvent:
            return self._list(depth + 1)
        return self._mapping(depth + 1)

    def _list(self, depth: int) -> list[Any]:
        found: list[Any] = []
        self._way.append(0)
        while type(event := self._next()) is not SequenceEndEvent:
            self._way[-1] = len(found)
            found.append(self._value(event, depth))
        self._way.pop()
        return found

    def _mapping(self, depth: int) -> dict[str, Any]:
        found: dict[str, Any] = {}
        seen: dict[str, Any] = {}
        self._way.append("")
        while type(event := self._next()) is not MappingEndEvent:
            before = len(self._marks)
            self._marks.append(event.start_mark)
            self._way[-1] = key = self._key(event, depth)
            if key not in seen and type(event) is ScalarEvent:
                if self.keep_scalars:
                    self._keep(event)
                seen[key] = event.start_mark
                found[key] = self._value(self._next(), depth)
                continue
            if type(event) is ScalarEvent:
                self._second(event, seen[key].line + 1)
                if self.keep_scalars:
                    self._keep(event)
            self._value(self._next(), depth)
            del self._marks[before:]  # the first one's places stay
        self._way.pop()
        return found

    def _key(self, event: Any, depth: int) -> str:
        """The text of a key; empty for an alias, which is refused."""
        if type(event) is AliasEvent:
            self._alias(event)
            return ""
        if type(event) is not ScalarEvent:
            self._open(event, depth)
            self._refuse(event, "a key that is not a word", "Write a plain word before the colon.")
            raise _Stop
        if not self._is_plain:
            self._scalar(event)
        if event.value == "<<":
            self._refuse(event, "a merge key (<<)", "Write the keys out.")
        return intern(event.value)  # the same few names in every entry, and the fields' own

    def _scalar(self, event: Any) -> None:
        """Count and look at a key or value."""
        self._features(event)
        self._count += 1
        if self._count > guard.MAX_VALUES:
            self._limit(event, "too-many-values", f"This file holds more than {guard.MAX_VALUES} values.")
        if event.style == '"' and guard.CONTROL.search(event.value):  # the file itself has none
            self.broken = True
            message = "This quoted text stands for a control or invisible character."
            self._find(event, "control-character", message, "Delete the backslash code.")

    def _keep(self, event: Any) -> None:
        start, end = event.start_mark.index, event.end_mark.index
        self.scalars.append(Scalar(start, end, not event.style and start < end, tuple(self._way)))

    def _second(self, event: Any, line: int) -> None:
        """A key that its mapping has already, on that line."""
        text, way = event.value, tuple(self._way)
        shown = text if len(text) <= 40 else text[:40] + "…"
        said = f"stands here a second time; it is already on line {line}."
        message, unquoted, mend = f'"{shown}" {said}', f"This key {said}", "Keep one of the two."
        if self.source.is_unknown(way[:-1]):
            message = unquoted
        elif not self.source.is_private(way[:-1]):
            unquoted = message
        self._find(event, "duplicate-key", message, mend, unquoted=(unquoted, mend))
        self.repeated.add(way)

    def _open(self, event: Any, depth: int) -> None:
        """The start of a mapping or list."""
        self._features(event)
        if depth >= guard.MAX_DEPTH:
            self._limit(event, "too-deep", f"This is nested more than {guard.MAX_DEPTH} deep.")

    def _alias(self, event: Any) -> None:
        self._refuse(event, "an alias (*)", 'Write the text out, or put it in quotes: "*text".')

    def _features(self, event: Any) -> None:
        if event.anchor is not None:
            self._refuse(event, "an anchor (&)", 'Delete it, or put the text in quotes: "&text".')
        if event.tag is not None:
            self._refuse(event, "a tag (!)", 'Delete it, or put the text in quotes: "!text".')

    def _refuse(self, event: Any, what: str, mend: str) -> None:
        """A finding for the first of YAML's features that an entry does not use."""
        self.broken = True
        if not self._refused:
            self._refused = True
            message = f"There is {what} here; an entry uses keys, lists and text only."
            self._find(event, "yaml-feature", message, mend)

    def _limit(self, event: Any, code: str, message: str) -> None:
        self.broken = True
        self._find(event, code, message, "Make the entry simpler.")
        raise _Stop

    def _find(self, event: Any, code: str, message: str, mend: str, unquoted: Unquoted = None) -> None:
        mark = event.start_mark
        place = Place(self.source.path, mark.line + 1, mark.column + 1)
        self.findings.append(self.source.finding_at(place, code, message, mend, unquoted=unquoted))

    def _no_entry(self, root: Any) -> None:
        """A finding for a text that is YAML and no mapping."""
        if root is None:
            place, code = Place(self.source.path, 1, 1), "empty-file"
            message = "This file holds no entry."
            mend = "Write one (bowlbook new makes a start), or delete the file."
        else:
            place, code = self.source.place_of(()), "wrong-shape"
            message = "An entry is a list of keys and values, one a line."
            mend = "Begin with a line such as: name: Soft clay"
        self.findings.append(self.source.finding_at(place, code, message, mend))


def _places_of(marks: list[Any]) -> bytes:
    """Marks as `Source` holds their places."""
    return array("I", [mark.index for mark in marks]).tobytes()


def _problem(error: YAMLError) -> SyntaxProblem:
    context, problem, *marks = (
        getattr(error, name, None) for name in ("context", "problem", "context_mark", "problem_mark")
    )
    return SyntaxProblem(context, problem, *[mark and (mark.line, mark.column) for mark in marks])
