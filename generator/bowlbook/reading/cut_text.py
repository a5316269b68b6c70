"""Texts that a # may cut off: YAML takes what is behind it for a remark."""

import re
from bisect import bisect_right
from collections.abc import Sequence
from typing import NamedTuple

from bowlbook.reading.source import Loc
from bowlbook.reading.yaml_reader import Scalar


class Cut(NamedTuple):
    """What YAML takes for a remark and may be the end of a text: line and column from 0, and its own text.

    ``may_belong_to``: the way to the key or value that it may belong to, where there is one.
    """

    line: int
    column: int
    text: str
    may_belong_to: Loc | None


BEHIND = re.compile(r"(?m)^(?:[ \t]*+[^ \t\n].*#|[ \t]+#(?! +[^\W\d_]))")
"""A # with something before it on its line, or one that begins an indented line and no remark."""
REMARK = re.compile(r"# +[^\W\d_]")
"""A remark begins so: #, a space, a letter."""


def _goes_on(text: str, before: Scalar, at: int) -> bool:
    """Whether a line that begins at ``at`` would be more of the plain value before it."""
    if not before.plain or text[before.end : at].strip():
        return False
    begin = text.rfind("\n", 0, before.start) + 1
    indent = len(text[begin:]) - len(text[begin:].lstrip(" "))
    return at - text.rfind("\n", 0, at) - 1 > indent


def cuts_in(text: str, scalars: Sequence[Scalar], *, whole: bool) -> list[Cut]:
    """Every remark that may be the end of a text: behind something on its line, or right below a text.

    Whatever begins with a # outside of all keys and values is a remark to YAML. Behind a plain value one
    has two spaces before its #; everywhere it begins with a space and a letter. On a line of its own that
    counts only right below a plain value and deeper than the line on which the value begins: there YAML
    would read on but for the #. Unless the text was read ``whole``, only what was read counts.
    """
    if not scalars:
        return []
    found = []
    ends = [each.end for each in scalars]
    read_to = len(text)
    if not whole:
        read_to = re.compile("[\n\"']|$").search(text, ends[-1]).start()  # type: ignore[union-attr]
    at = 0
    while (at := text.find("#", at, read_to)) >= 0:
        number = bisect_right(ends, at)
        if number < len(ends) and scalars[number].start <= at:  # this # is within a text
            at = ends[number]
            continue
        line_start = text.rfind("\n", 0, at) + 1
        line_end = text.find("\n", at)
        remark = text[at : line_end if line_end >= 0 else len(text)]
        written_to = line_start + len(text[line_start:at].rstrip())
        before = scalars[number - 1] if number else None
        narrow = before is not None and before.plain and before.end == written_to and at < written_to + 2
        below = written_to == line_start and before is not None and _goes_on(text, before, at)
        if (written_to > line_start or below) and (narrow or not REMARK.match(remark)):
            near = before is not None and text[before.end : at].strip() in ("", ":")
            may_belong_to = before.way if before is not None and near else None
            found.append(Cut(text.count("\n", 0, at), at - line_start, remark, may_belong_to))
        at += len(remark)
    return found
