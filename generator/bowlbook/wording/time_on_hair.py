"""Time on the hair in words, for sheets, cards, technique pages, timers and the command line."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.technique import EACH_SECTION, FIRST_SECTION, LAST_SECTION, Technique
from bowlbook.figures.applying import measured_densities
from bowlbook.figures.time_on_hair import TimeOnHair, time_on_hair
from bowlbook.reading.amount import counted, plain

LAST_RINSED = "Last rinsed by"
SECTION_WORDS = {"open-air": "section", "foil": "foil", "on-scalp": "parting"}


class TimerStart(NamedTuple):
    """What a timer is started with: minutes until the last rinse, minutes between checks, both plain numbers.

    ``section`` is the word for a section, None where applying is not known: then the minutes are the
    processing alone. ``first``: minutes until the first section is due, where each is rinsed by itself.
    """

    name: str
    minutes: str
    check: str
    section: str | None
    first: str | None


def section_word(technique: Technique) -> str:
    """What a section is called where it is placed: foil, parting or section."""
    return SECTION_WORDS[technique.placement]


def whole_minutes(minutes: Fraction) -> str:
    """``42 minutes``: whole minutes, rounded up, so that nothing seems shorter than it is."""
    return counted(ceil(minutes), "minute")


def time_facts(technique: Technique, time: TimeOnHair, hands: int) -> Iterator[tuple[str, str]]:
    """Applying, processing, when the first section is due and when the last must be rinsed."""
    word = section_word(technique)
    if time.applying is not None:
        people = ", two people" if hands == 2 else ""
        yield "Applying", f"{whole_minutes(time.applying)}{people}"
    yield "Processing", f"at most {counted(time.processing, 'minute')} {counted_from(technique)}"
    if time.first_due is not None:
        yield f"First {word} rinsed by", f"{whole_minutes(time.first_due)} after it goes in"
    if time.last_due is not None:
        yield LAST_RINSED, f"{whole_minutes(time.last_due)} after the first {word} goes in"


def counted_from(technique: Technique) -> str:
    """From when processing counts: ``from the last parting``."""
    word = section_word(technique)
    return {
        FIRST_SECTION: f"from the first {word}",
        EACH_SECTION: f"for each {word} by itself",
        LAST_SECTION: f"from the last {word}",
    }[technique.processing.counts_from]


def times_by_density(book: Book, technique: Technique) -> str | None:
    """When the last section must be rinsed, for each density that the house has measured, in one sentence.

    ``at most 42 minutes after the first parting goes in (thin hair 40, thick hair 46)``; None where applying
    is not known.
    """
    written = time_on_hair(book, technique).last_due
    if written is None:
        return None
    others = []
    for density, factor in measured_densities(book.house).items():
        if factor != 1 and (due := time_on_hair(book, technique, factor).last_due) is not None:
            others.append(f"{density} hair {ceil(due)}")
    said = f"at most {whole_minutes(written)} after the first {section_word(technique)} goes in"
    return f"{said} ({', '.join(others)})" if others else said


def time_warning(book: Book, technique: Technique, density: Fraction, time: TimeOnHair) -> str | None:
    """What is wrong with the time on a head: too long, or no time left for the last sections."""
    word = section_word(technique)
    if time.over and time.limit:
        place = "on the scalp" if time.on_scalp else "on the hair"
        limit = plain(time.limit.minutes)
        product = time.limit.product
        who = "the house" if product is None else f"the maker of {product.name}"
        said = f"Too long for this hair: {whole_minutes(time.longest)} {place}, and {who} allows {limit}."
        two = time_on_hair(book, technique, density, 2)
        if not two.over and not two.no_time_for_the_last:
            shorter = whole_minutes(two.longest)
            return f"{said} With two people it is {shorter}. Alone, rinse at {limit}, done or not."
        return f"{said} Rinse at {limit}, done or not, and lift the rest on another visit."
    if time.no_time_for_the_last:
        return (
            f"The first {word} is due before the last has had its time: take fewer, or work with two people."
        )
    if time.first_due is not None and time.applying is not None and time.first_due < time.applying:
        return f"The first {word} is due before the last one is in: look at it in time."
    return None


def timer_start(technique: Technique, time: TimeOnHair) -> TimerStart:
    """The timer of a technique on a head: from the first section in, no longer than anybody allows."""
    due = time.processing_due if time.last_due is None else time.last_due
    section = None if time.last_due is None else section_word(technique)
    first = None if time.first_due is None else plain(time.first_due)
    return TimerStart(technique.name, plain(due), plain(technique.processing.check_every), section, first)
