"""Techniques that stay too long on a head of a certain density: sentences, and clauses that refuse them."""

from bowlbook.book.book import Book
from bowlbook.entries.technique import Technique
from bowlbook.figures.applying import measured_densities
from bowlbook.figures.head import bits_of, head_with
from bowlbook.figures.ruling import Clause
from bowlbook.figures.time_on_hair import TimeLimit, TimeOnHair, time_on_hair
from bowlbook.reading.amount import counted, plain


def too_long(book: Book, technique: Technique) -> tuple[Clause, ...]:
    """The heads on which a technique stays longer than its products' makers or the house allow.

    Every head where it does so as written; else those of each density that the house has measured.
    """
    written = time_on_hair(book, technique)
    if written.over:
        return (_clause(written, ()),)
    densities = measured_densities(book.house)
    times = {word: time_on_hair(book, technique, factor) for word, factor in densities.items()}
    return tuple(_clause(time, (word,)) for word, time in times.items() if time.over)


def _clause(time: TimeOnHair, densities: tuple[str, ...]) -> Clause:
    assert time.limit is not None
    when = head_with(density=bits_of("density", densities))
    who = "this house" if time.limit.product is None else "the maker"
    return Clause(when, f"{stay(time)}; {allowed(time.limit)}.", who)


def stay(time: TimeOnHair) -> str:
    """How long something stays, in minutes, and what that is made of."""
    place = "on the scalp" if time.on_scalp else "on the hair"
    if time.applying is None or time.longest == time.processing:
        return f"A section stays {place} for {counted(time.processing, 'minute')}"
    return (
        f"From the first section in to the last rinsed is {counted(time.longest, 'minute')} {place} "
        f"({plain(time.applying)} applying, {plain(time.processing)} processing)"
    )


def allowed(limit: TimeLimit) -> str:
    """Who allows how many minutes."""
    if limit.product is None:
        return f"the house allows {plain(limit.minutes)}"
    place = "scalp" if limit.on_scalp else "hair"
    return f"the maker of {limit.product.name} allows {plain(limit.minutes)} on the {place}"
