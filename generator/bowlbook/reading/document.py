"""YAML text to plain mappings, lists and texts, each with its place: the only room that knows PyYAML.

Read event by event from the C parser, in one pass. Every scalar stays text: nothing is resolved to a
number, a boolean or a date, so that ``1:2`` is a ratio and ``no`` a word. What YAML offers beyond
mappings, lists and texts is refused. Source: YAML 1.2.2, core schema, for what is empty.
"""

import re
from bisect import bisect_right
from pathlib import Path
from typing import Any, NamedTuple

import yaml

from bowlbook.reading import guard
from bowlbook.reading.finding import Finding, finding_of
from bowlbook.reading.place import Place
from bowlbook.reading.refusal import Refusal
from bowlbook.reading.source import Loc, Source

EMPTY = {"", "~", "null", "Null", "NULL"}


def read_source(
    path: Path, shown_as: str, private: frozenset[str], known: frozenset[str] | None = None
) -> tuple[Source, list[Finding]]:
    """Read one file. ``source.data`` is None where a finding of the text itself stands in the way.

    ``private`` and ``known`` as in `Source`: of them depends what the findings show.
    """
    try:
        content = guard.read_bytes(path)
    except Refusal as refusal:
        return _refused(shown_as, refusal)
    return read_content(content, shown_as, private, known)


def read_content(
    content: bytes, shown_as: str, private: frozenset[str], known: frozenset[str] | None = None
) -> tuple[Source, list[Finding]]:
    """Read one file's bytes as `read_source` does."""
    try:
        text, marked = guard.decode(content)
    except Refusal as refusal:
        return _refused(shown_as, refusal)
    source, findings = read_text(text, shown_as, private, known)
    if marked:
        findings.append(
            source.finding_at(
                Place(shown_as, 1, 1),
                "byte-order-mark",
                "This file begins with a byte order mark.",
                "Save it as UTF-8 without BOM.",
                "warning",
            )
        )
    return source, findings


def _refused(shown_as: str, refusal: Refusal) -> tuple[Source, list[Finding]]:
    return Source(shown_as, ""), [finding_of(refusal, Place(shown_as, *refusal.at))]


def read_text(
    text: str, shown_as: str, private: frozenset[str], known: frozenset[str] | None = None
) -> tuple[Source, list[Finding]]:
    """Read one text as `read_source` does a file."""
    source = Source(shown_as, text, private, known=known)
    control = guard.first_control(text)
    if control is not None:
        line, column, name = control
        return source, [
            source.finding_at(
                Place(shown_as, line, column),
                "control-character",
                f"There is a control or invisible character here ({name}).",
                "Delete it; retype the line if you cannot see it.",
            )
        ]
    builder = _Builder(source)
    syntax = None
    parser = yaml.CBaseLoader(text)
    try:
        for event in iter(parser.get_event, None):  # what yaml.parse does, without a generator between
            builder.take(event)
    except _Stop:
        pass
    except yaml.YAMLError as error:
        syntax = error if isinstance(error, yaml.MarkedYAMLError) else yaml.MarkedYAMLError()
        builder.broken = True
    except RecursionError:  # pragma: no cover - the depth guard answers first
        builder.broken = True
    finally:
        parser.dispose()
    if not builder.broken:
        builder.finish()
    cut = builder.cut()
    if syntax is not None and not any(_explains(each, syntax) for each in cut):
        builder.findings.append(_syntax(source, syntax))
    return source, builder.findings + [builder.cut_finding(each) for each in cut]


class _Scalar(NamedTuple):
    """A key or value as it stands in the text: where it begins and ends, and the way to it."""

    start: int
    end: int
    plain: bool
    way: Loc


class _Cut(NamedTuple):
    """What YAML takes for a remark and may be the end of a text: its place, from 0, and its own text."""

    line: int
    column: int
    text: str


BEHIND = re.compile(r"(?m)^(?:[ \t]*+[^ \t\n].*#|[ \t]+#(?! +[^\W\d_]))")
"""A # with something before it on its line, or one that begins an indented line and no remark."""
REMARK = re.compile(r"# +[^\W\d_]")
"""A remark begins so: #, a space, a letter."""


def _goes_on(text: str, before: _Scalar, at: int) -> bool:
    """Whether a line that begins at ``at`` would be more of the plain value before it."""
    if not before.plain or text[before.end : at].strip():
        return False
    begin = text.rfind("\n", 0, before.start) + 1
    indent = len(text[begin:]) - len(text[begin:].lstrip(" "))
    return at - text.rfind("\n", 0, at) - 1 > indent


class _Stop(Exception):
    """Enough was seen: a limit was passed, and reading on would help nobody."""


class _Level:
    """A mapping or list being filled. ``key`` is the key whose value comes next, None before a key.

    ``lines``: the line of each key, None for a list. ``places`` is where places are put; those behind a key
    that stands a second time are not the source's. ``last`` is the last key.
    """

    __slots__ = ("holder", "key", "last", "lines", "places", "skip")

    def __init__(self, holder: dict[str, Any] | list[Any], places: list[int]) -> None:
        self.holder: Any = holder
        self.lines: dict[str, int] | None = {} if isinstance(holder, dict) else None
        self.places = places
        self.key: str | None = None
        self.last = ""
        self.skip = False


class _Builder:
    """Takes events one by one and fills the source."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.findings: list[Finding] = []
        self.broken = False
        self.root: Any = None
        self.seen = False
        self.levels: list[_Level] = []
        self.level: _Level | None = None
        self.count = 0
        self.features = 0
        self.may_be_marked = "&" in source.text or "!" in source.text
        self.may_be_cut = BEHIND.search(source.text) is not None
        self.scalars: list[_Scalar] = []
        self.spoilt: set[Loc] = set()

    def take(self, event: Any) -> None:
        kind = type(event)
        if kind is yaml.ScalarEvent:
            if self.may_be_marked:
                self._features(event)
            self.count += 1
            if self.count > guard.MAX_VALUES:
                message = f"This file holds more than {guard.MAX_VALUES} values."
                self._limit(event, "too-many-values", message)
            text: str = event.value
            style = event.style
            if style == '"' and guard.CONTROL.search(text):  # nothing else stands for what is not in the file
                self._escaped_control(event)
            level = self.level
            if level is not None and level.key is None and level.lines is not None:
                self._key(level, level.lines, text, event)
            else:
                self._place(None if not style and text in EMPTY else text, event.start_mark)
            if self.may_be_cut:
                start, end = event.start_mark.index, event.end_mark.index
                self.scalars.append(_Scalar(start, end, not style and start < end, self._way()))
        elif kind is yaml.MappingStartEvent:
            self._features(event)
            self._open({}, event)
        elif kind is yaml.SequenceStartEvent:
            self._features(event)
            self._open([], event)
        elif kind in (yaml.MappingEndEvent, yaml.SequenceEndEvent):
            self.levels.pop()
            self.level = self.levels[-1] if self.levels else None
        elif kind is yaml.AliasEvent:
            self._refuse(event, "an alias (*)", 'Write the text out, or put it in quotes: "*text".')
            self._place(None, event.start_mark)
        elif kind is yaml.DocumentStartEvent:
            if self.seen:
                self._refuse(event, "a second document (---)", "Put it in a file of its own.")
                raise _Stop
            self.seen = True
            if event.version or event.tags:
                self._refuse(event, "a directive (%)", "Delete that line.")

    def finish(self) -> None:
        place = Place(self.source.path, 1, 1)
        if not self.seen or self.root is None:
            self.findings.append(
                self.source.finding_at(
                    place,
                    "empty-file",
                    "This file holds no entry.",
                    "Write one (bowlbook new makes a start), or delete the file.",
                )
            )
        elif not isinstance(self.root, dict):
            self.findings.append(
                self.source.finding(
                    (),
                    "wrong-shape",
                    "An entry is a list of keys and values, one a line.",
                    "Begin with a line such as: name: Soft clay",
                )
            )
        else:
            self.source.data = self.root

    def cut(self) -> list[_Cut]:
        """Every remark that may be the end of a text: behind something on its line, or right below a text.

        Whatever begins with a # outside of all keys and values is a remark to YAML. Behind a plain value one
        has two spaces before its #; everywhere it begins with a space and a letter. On a line of its own that
        counts only right below a plain value and deeper than the line on which the value begins: there YAML
        would read on but for the #. Where reading ended early, only what was read counts.
        """
        text, found = self.source.text, []
        ends = [each.end for each in self.scalars]
        read_to = len(text)
        if self.broken and ends:
            read_to = re.compile("[\n\"']|$").search(text, ends[-1]).start()  # type: ignore[union-attr]
        at = 0
        while self.scalars and (at := text.find("#", at, read_to)) >= 0:
            number = bisect_right(ends, at)
            if number < len(ends) and self.scalars[number].start <= at:  # the sign is in a text
                at = ends[number]
                continue
            line_start = text.rfind("\n", 0, at) + 1
            line_end = text.find("\n", at)
            remark = text[at : line_end if line_end >= 0 else len(text)]
            written_to = line_start + len(text[line_start:at].rstrip())
            before = self.scalars[number - 1] if number else None
            narrow = before is not None and before.plain and before.end == written_to and at < written_to + 2
            below = written_to == line_start and before is not None and _goes_on(text, before, at)
            if (written_to > line_start or below) and (narrow or not REMARK.match(remark)):
                found.append(_Cut(text.count("\n", 0, at), at - line_start, remark))
                if before is not None and text[before.end : at].strip() in ("", ":"):
                    self.spoilt.add(before.way)
            at += len(remark)
        self.source.spoilt = frozenset(self.spoilt)
        return found

    def cut_finding(self, cut: _Cut) -> Finding:
        return self.source.finding_at(
            Place(self.source.path, cut.line + 1, cut.column + 1),
            "cut-by-hash",
            "What stands behind this # is left out: YAML takes it for a remark.",
            "Put the whole text in quotes if the # belongs to it. A remark has two spaces before its #, "
            "and a space and a word after it.",
        )

    def _way(self) -> Loc:
        """The way to the key or value that was placed last."""
        return tuple(len(each.holder) - 1 if each.lines is None else each.last for each in self.levels)

    def _features(self, event: Any) -> None:
        if event.anchor is not None:
            self._refuse(event, "an anchor (&)", 'Delete it, or put the text in quotes: "&text".')
        if event.tag is not None:
            self._refuse(event, "a tag (!)", 'Delete it, or put the text in quotes: "!text".')

    def _refuse(self, event: Any, what: str, mend: str) -> None:
        self.broken = True
        self.features += 1
        if self.features == 1:
            self.findings.append(
                self.source.finding_at(
                    self._at(event),
                    "yaml-feature",
                    f"There is {what} here; an entry uses keys, lists and text only.",
                    mend,
                )
            )

    def _at(self, event: Any) -> Place:
        mark = event.start_mark
        return Place(self.source.path, mark.line + 1, mark.column + 1)

    def _limit(self, event: Any, code: str, message: str) -> None:
        self.broken = True
        self.findings.append(
            self.source.finding_at(self._at(event), code, message, "Make the entry simpler.")
        )
        raise _Stop

    def _open(self, holder: dict[str, Any] | list[Any], event: Any) -> None:
        if len(self.levels) >= guard.MAX_DEPTH:
            self._limit(event, "too-deep", f"This is nested more than {guard.MAX_DEPTH} deep.")
        level = self.level
        if level is not None and level.lines is not None and level.key is None:
            self._refuse(event, "a key that is not a word", "Write a plain word before the colon.")
            raise _Stop
        self.level = _Level(holder, self._place(holder, event.start_mark))
        self.levels.append(self.level)

    def _escaped_control(self, event: Any) -> None:
        self.broken = True
        self.findings.append(
            self.source.finding_at(
                self._at(event),
                "control-character",
                "This quoted text stands for a control or invisible character.",
                "Delete the backslash code.",
            )
        )

    def _key(self, level: _Level, lines: dict[str, int], text: str, event: Any) -> None:
        if text == "<<":
            self._refuse(event, "a merge key (<<)", "Write the keys out.")
        mark = event.start_mark
        level.key = level.last = text
        level.skip = text in lines
        if level.skip:
            shown = text if len(text) <= 40 else text[:40] + "…"
            way, mend = self._way(), "Keep one of the two."
            said = f"stands here a second time; it is already on line {lines[text] + 1}."
            message, unquoted = f'"{shown}" {said}', f"This key {said}"
            if self.source.is_unknown(way[:-1]):
                message = unquoted
            elif not self.source.is_private(way[:-1]):
                unquoted = message
            self.findings.append(
                self.source.finding_at(
                    self._at(event), "duplicate-key", message, mend, unquoted=(unquoted, mend)
                )
            )
            self.spoilt.add(way)
        else:
            lines[text] = mark.line
            level.places += (mark.line, mark.column)

    def _place(self, value: Any, mark: Any) -> list[int]:
        """Put a value where the open level wants it, and its place where that of what is in it belongs."""
        level = self.level
        if level is None:
            self.root = value
            places = self.source.places
        else:
            places = level.places
            if level.lines is None:
                level.holder.append(value)
            elif level.key is None:
                return places
            else:
                key, level.key = level.key, None
                if level.skip:
                    return []
                level.holder[key] = value
        places += (mark.line, mark.column)
        return places


COMPLAINTS = (
    # what the parser says, at which of its two marks, in our words, and the mend
    ("mapping values are not allowed", "problem",
     "There is a second colon in this line, or the line above is not finished.",
     'Put text that holds a colon in quotes: because: "first: rinse".'),
    ("scanning an alias", "context", "A value cannot begin with *.", "Put the text in quotes."),
    ("scanning an anchor", "context", "A value cannot begin with &.", "Put the text in quotes."),
    ("a tag", "context", "A value cannot begin with !.", "Put the text in quotes."),
    ("undefined tag handle", "problem", "A value cannot begin with !.", "Put the text in quotes."),
    ("character that cannot start", "problem", "A value cannot begin with this character.",
     "Put the text in quotes."),
    ("unknown escape", "problem", "A backslash in double quotation marks begins a code, and this is none.",
     "Write the backslash twice, or put the text in single marks."),
    ("Unicode character escape", "problem", "This backslash code in double quotation marks is no character.",
     "Type the character itself, or put the text in single marks."),
    ("expected hexdecimal number", "problem",
     "A backslash in double quotation marks begins a code of digits, and these are not enough.",
     "Write the backslash twice, or put the text in single marks."),
    ("quoted scalar", "context", "A quotation mark is opened here and never closed.",
     "Close it with the same mark."),
    ("parsing a flow", "context", "A list or mapping in brackets is not closed, or lacks a comma.",
     "Close it with ] or }, with a comma between its parts."),
    ("could not find expected ':'", "context",
     "This line has no colon after its key, or belongs to the line above.",
     "Write key: value; indent a continued text deeper than its key."),
)  # fmt: skip


def _explains(cut: _Cut, error: yaml.MarkedYAMLError) -> bool:
    """Whether a parser's complaint follows from a text that was cut, by its brackets or its next line."""
    if error.context is not None and "parsing a flow" in error.context and error.context_mark is not None:
        return error.context_mark.line <= cut.line and re.search(r"[\]}]", cut.text) is not None
    return error.problem_mark is not None and error.problem_mark.line == cut.line + 1


def _syntax(source: Source, error: yaml.MarkedYAMLError) -> Finding:
    """A parser's complaint in our own words: its own may quote what is private."""
    said = f"{error.context} {error.problem}"
    known = (row[1:] for row in COMPLAINTS if row[0] in said)
    which, message, mend = next(known, ("problem", *NO_COMPLAINT))
    mark = error.context_mark if which == "context" else error.problem_mark
    lines = source.text.split("\n")
    line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
    while line > 1 and not "".join(lines[line - 1 : line]).strip():  # at its end, or in an empty line
        line -= 1
        column = len(lines[line - 1])
    text = lines[line - 1]
    if "parsing a flow node" in said and "???" in text:  # a gap inside brackets is no YAML
        place = Place(source.path, line, text.index("???") + 1)
        return source.finding_at(place, "not-filled-in", "Not filled in yet.", "Write the value.")
    before = text[: len(text) - len(text.lstrip())]
    if "\t" in before:
        message, mend = "There is a tab here.", "Indent with two spaces a level; YAML takes no tabs."
        column = text.index("\t") + 1
    return source.finding_at(Place(source.path, line, max(column, 1)), "not-yaml", message, mend)


NO_COMPLAINT = (
    "The lines do not fit together here as YAML.",
    "Check the indentation against the lines above: two spaces a level.",
)
"""Message and mend for what no row of `COMPLAINTS` knows."""
