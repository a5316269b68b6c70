"""One thing found in a book: where, which code, what, and how to mend it."""

from typing import Literal, NamedTuple

from generator.reading.place import Place
from generator.reading.refusal import Refusal

Severity = Literal["error", "warning"]


class Finding(NamedTuple):
    """A finding carries its own line of text, so that printing one opens no file.

    ``excerpt`` is that line with private values already masked; the columns are kept. ``about``: kind and id
    of the entry that it is about, where that is not the one it stands in; it makes no other finding of it.
    """

    place: Place
    code: str
    message: str
    mend: str
    excerpt: str = ""
    severity: Severity = "error"
    about: tuple[str, str] | None = None


def finding_of(refusal: Refusal, place: Place, excerpt: str = "") -> Finding:
    """What a refusal is, once its place is known."""
    return Finding(place, refusal.code, refusal.message, refusal.mend, excerpt)


def in_order(findings: list[Finding]) -> list[Finding]:
    """By path, line, column, then code, message and the rest; each finding once, the first of the same."""
    return sorted({finding[:-1]: finding for finding in reversed(findings)}.values())


def finding_text(finding: Finding) -> str:
    """A finding as ``path:line:column: CODE message``, its line with a caret, and the mend."""
    label = "" if finding.severity == "error" else " (warning)"
    lines = [f"{finding.place}: {finding.code}{label} {finding.message}"]
    if finding.excerpt.strip():
        lines.append(f"    {finding.excerpt}")
        lines.append("    " + " " * min(finding.place.column - 1, len(finding.excerpt)) + "^")
    if finding.mend:
        lines.append(f"    Mend: {finding.mend}")
    return "\n".join(lines)
