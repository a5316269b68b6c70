"""Figure 13: time on the hair, from the first section in to the last rinsed, and what limits it.

Rules: pages/manual/services.md. How long skin and hair bear a mix is common practice, no published source;
the limits are what the products' makers and the house write.
"""

from fractions import Fraction
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.product import Lightener, Product, Toner
from bowlbook.entries.technique import EACH_SECTION, FIRST_SECTION, Technique, TechniqueBowl
from bowlbook.figures.applying import applying


class TimeLimit(NamedTuple):
    """The longest time in minutes that a product's maker allows, or the house where ``product`` is None."""

    minutes: Fraction
    product: Product | None
    on_scalp: bool


class TimeOnHair(NamedTuple):
    """How long a technique's bowls are on a head, all in minutes.

    ``applying`` is None where a bowl does not say. ``counts_from`` is the technique's; ``limit`` the least
    that applies, None where nobody wrote one.
    """

    applying: Fraction | None
    processing: Fraction
    counts_from: str
    on_scalp: bool
    limit: TimeLimit | None

    @property
    def span(self) -> Fraction | None:
        """From the first section in to the last rinsed."""
        if self.applying is None:
            return None
        if self.counts_from == FIRST_SECTION:
            return max(self.applying, self.processing)
        return self.applying + self.processing

    @property
    def in_turn(self) -> bool:
        """Whether each section is rinsed when its own time is up."""
        return self.counts_from == EACH_SECTION

    @property
    def longest(self) -> Fraction:
        """The longest that any one section stays; on the scalp the whole span: skin is not rinsed apart.

        Where applying is not known, processing alone, which is less than it is.
        """
        if self.span is None or (self.in_turn and not self.on_scalp):
            return self.processing
        return self.span

    @property
    def over(self) -> bool:
        """Whether something stays longer than the limit."""
        return self.limit is not None and self.longest > self.limit.minutes

    @property
    def no_time_for_the_last(self) -> bool:
        """Whether the first section is due before the last is in, although all are rinsed together."""
        return self.counts_from == FIRST_SECTION and (self.applying or 0) >= self.processing

    @property
    def first_due(self) -> Fraction | None:
        """When the first section is due, counted from when it went in; None where all are rinsed together."""
        return self.processing_due if self.in_turn and self.applying is not None else None

    @property
    def processing_due(self) -> Fraction:
        """The processing time, or the limit if that is sooner."""
        return self._within(self.processing)

    @property
    def last_due(self) -> Fraction | None:
        """When the last section must be rinsed, counted from the first in: at the limit if that is sooner."""
        if self.applying is None or self.span is None:
            return None
        if self.in_turn and not self.on_scalp:
            return self.applying + self.processing_due
        return self._within(self.span)

    def _within(self, minutes: Fraction) -> Fraction:
        return min(minutes, self.limit.minutes) if self.limit else minutes


def time_on_hair(
    book: Book, technique: Technique, density: Fraction = Fraction(1), hands: int | None = None
) -> TimeOnHair:
    """The time on a head of a density factor; as written with 1 and the technique's own ``hands``.

    Counted are the bowls that lighten, or all where none does; a span of bowls used by turns counts once.
    """
    counted = _counted(book, technique)
    found = applying(technique, density, hands or technique.hands)
    spans = {found[place].span: found[place].minutes for place in counted}
    known = [minutes for minutes in spans.values() if minutes is not None]
    on_scalp = technique.placement == "on-scalp"
    bowls = [technique.bowls[place] for place in counted]
    limits = _limits(book, bowls, on_scalp=on_scalp)
    limit = min(limits, key=lambda each: each.minutes, default=None)
    applied, processing = sum(known, Fraction(0)) if len(known) == len(spans) else None, technique.processing
    return TimeOnHair(applied, processing.minutes, processing.counts_from, on_scalp, limit)


def _counted(book: Book, technique: Technique) -> list[int]:
    """The places of the bowls that lighten; of all bowls where none does."""
    places = range(len(technique.bowls))
    return [place for place in places if not book.blends[technique.bowls[place].blend].tones] or list(places)


def _limits(book: Book, bowls: list[TechniqueBowl], *, on_scalp: bool) -> list[TimeLimit]:
    """Every limit that applies: those of the products in pouring order, then the house's."""
    ids = dict.fromkeys(share.product for bowl in bowls for share in book.blends[bowl.blend].shares)
    limits: list[TimeLimit] = []
    for product in (book.products[each] for each in ids):
        if isinstance(product, Lightener | Toner):
            if on_scalp and product.longest_on_scalp is not None:
                limits.append(TimeLimit(product.longest_on_scalp, product, on_scalp=True))
            if product.longest_on_hair is not None:
                limits.append(TimeLimit(product.longest_on_hair, product, on_scalp=False))
    if on_scalp and book.house.longest_on_scalp is not None:
        limits.append(TimeLimit(book.house.longest_on_scalp, None, on_scalp=True))
    return limits
