"""A bowl is used by turns with the bowl before it, and there is none, or none that it could be used with.

Why: how long both stand open, and how long the first section waits, is reckoned from the two together.
Source: this project's own rule.
Wrong: `by_turns: yes` in the first bowl; or in a toning bowl after one that lightens.
Right: `by_turns: yes` in the second of two bowls that are on the hair together.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.technique import Technique
from bowlbook.reading.finding import Finding

KINDS = ("technique",)


def find(book: Book, technique: Technique, today: date) -> Iterator[Finding]:
    """Findings at ``by_turns``."""
    tones = [book.blends[bowl.blend].tones for bowl in technique.bowls]
    for index, bowl in enumerate(technique.bowls):
        if not bowl.by_turns:
            continue
        if index == 0:
            message = "No bowl is listed before this one."
            mend = "Write by_turns: yes in the second of the two bowls."
        elif tones[index] != tones[index - 1]:
            message = "A toner goes on after the rinse, not by turns with a lightener."
            mend = "Delete by_turns here."
        else:
            continue
        yield technique.source.objection(("bowls", index, "by_turns"), message, mend)
