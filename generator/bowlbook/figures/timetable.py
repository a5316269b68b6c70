"""When each stretch of a class begins."""

from fractions import Fraction

from bowlbook.entries.class_notes import ClassNotes
from bowlbook.figures.weigh_out import running_totals


def starts_of(notes: ClassNotes) -> list[Fraction]:
    """Minutes from the start of the class at which each stretch begins, and at which the last one ends."""
    return [Fraction(0), *running_totals([item.minutes for item in notes.outline])]
