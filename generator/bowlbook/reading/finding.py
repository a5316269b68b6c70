"""One thing found in a book: where, which code, what, and how to mend it."""

from typing import Any, Literal, NamedTuple

from bowlbook.reading.place import Place
from bowlbook.reading.refusal import Refusal

Severity = Literal["error", "warning"]


class Finding(NamedTuple):
    """A finding carries its own line of text, so that printing one opens no file.

    ``message``, ``mend`` and ``excerpt`` may travel: private values are masked in them, each in its column.
    ``plain``: the three as the book's author may see them on her own screen, where that is different.
    """

    place: Place
    code: str
    message: str
    mend: str
    excerpt: str = ""
    severity: Severity = "error"
    plain: tuple[str, str, str] | None = None

    def unmasked(self) -> "Finding":
        """The finding with private values as they are written. Only for a screen its author looks at."""
        if self.plain is None:
            return self
        message, mend, excerpt = self.plain
        return self._replace(message=message, mend=mend, excerpt=excerpt)


def finding_of(refusal: Refusal, place: Place, excerpt: str = "") -> Finding:
    """The finding for a refusal at a place."""
    return Finding(place, refusal.code, refusal.message, refusal.mend, excerpt)


def packed(finding: Finding) -> tuple[Any, ...]:
    """A finding as plain tuples, which are stored in half of the time; `unpacked` makes it again."""
    return tuple(finding.place), *finding[1:]


def unpacked(stored: tuple[Any, ...]) -> Finding:
    """The finding that `packed` gave."""
    place, *rest = stored
    return Finding(Place(*place), *rest)


def sorted_findings(findings: list[Finding]) -> list[Finding]:
    """By path, line, column, then code, message and the rest; each finding once, the first of the same."""
    found = {each[:6]: each for each in reversed(findings)}
    return [found[key] for key in sorted(found)]


def finding_text(finding: Finding) -> str:
    """A finding as ``path:line:column: CODE message``, its line with a caret, and the mend."""
    label = "" if finding.severity == "error" else " (warning)"
    lines = [f"{finding.place}: {finding.code}{label} {finding.message}".replace("\n", "\\n")]
    if finding.excerpt.strip():
        lines.append(f"    {finding.excerpt}")
        lines.append("    " + " " * min(finding.place.column - 1, len(finding.excerpt)) + "^")
    if finding.mend:
        lines.append(f"    Mend: {finding.mend}")
    return "\n".join(lines)
