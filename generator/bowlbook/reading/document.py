"""A file, its bytes or its text to a `Source`, with a finding for everything that is wrong with the text."""

from pathlib import Path

from bowlbook.reading import guard
from bowlbook.reading.cut_text import BEHIND, Cut, cuts_in
from bowlbook.reading.finding import Finding, finding_of
from bowlbook.reading.place import Place
from bowlbook.reading.refusal import Refusal
from bowlbook.reading.source import Source
from bowlbook.reading.syntax_finding import follows_from, syntax_finding
from bowlbook.reading.yaml_reader import YamlReader


def read_source(path: Path, shown_as: str, private: frozenset[str]) -> tuple[Source, list[Finding]]:
    """Read one file. ``source.data`` is None where a finding of the text itself stands in the way.

    ``private`` as in `Source`: of it depends what the findings show.
    """
    try:
        content = guard.read_bytes(path)
    except Refusal as refusal:
        return _refused(shown_as, refusal)
    return read_content(content, shown_as, private)


def read_content(
    content: bytes, shown_as: str, private: frozenset[str], known: frozenset[str] | None = None
) -> tuple[Source, list[Finding]]:
    """Read one file's bytes as `read_source` does. ``known`` as in `Source`."""
    try:
        text, marked = guard.decode(content)
    except Refusal as refusal:
        return _refused(shown_as, refusal)
    source, findings = read_text(text, shown_as, private, known)
    if marked:
        message = "This file begins with a byte order mark."
        mend = "Save it as UTF-8 without BOM."
        findings.append(source.finding_at(Place(shown_as, 1, 1), "byte-order-mark", message, mend, "warning"))
    return source, findings


def _refused(shown_as: str, refusal: Refusal) -> tuple[Source, list[Finding]]:
    return Source(shown_as, ""), [finding_of(refusal, Place(shown_as, *refusal.at))]


def read_text(
    text: str, shown_as: str, private: frozenset[str], known: frozenset[str] | None = None
) -> tuple[Source, list[Finding]]:
    """Read one text as `read_source` does a file. ``known`` as in `Source`."""
    source = Source(shown_as, text, private, known=known)
    try:
        guard.refuse_control(text, "Delete it; retype the line if you cannot see it.")
    except Refusal as unseen:
        place = Place(shown_as, *unseen.at)
        return source, [source.finding_at(place, unseen.code, unseen.message, unseen.mend)]
    reader = YamlReader(source, keep_scalars="#" in text and BEHIND.search(text) is not None)
    problem = reader.read()
    cuts = cuts_in(text, reader.scalars, whole=not reader.broken)
    source.faulty = frozenset(
        reader.repeated | {each.may_belong_to for each in cuts if each.may_belong_to is not None}
    )
    if problem is not None and not any(follows_from(problem, each) for each in cuts):
        reader.findings.append(syntax_finding(source, problem))
    return source, reader.findings + [_cut_finding(source, each) for each in cuts]


def _cut_finding(source: Source, cut: Cut) -> Finding:
    return source.finding_at(
        Place(source.path, cut.line + 1, cut.column + 1),
        "cut-by-hash",
        "What stands behind this # is left out: YAML takes it for a remark.",
        "Put the whole text in quotes if the # belongs to it. A remark has two spaces before its #, "
        "and a space and a word after it.",
    )
