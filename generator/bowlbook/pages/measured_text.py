"""Amounts in the house's own measures in a recipe's notes: beside each, the weight that it is."""

import re
from collections.abc import Iterable, Sequence
from fractions import Fraction
from html import unescape

from markupsafe import Markup, escape

from bowlbook.book.book import Book
from bowlbook.entries.measure import Measures
from bowlbook.entries.product import Product
from bowlbook.figures.measure import weight_held
from bowlbook.figures.unit import weight_text
from bowlbook.pages.render import finished
from bowlbook.reading.bare_name import bare_name

TAG = r'<(?:[^>"]|"[^"]*")*>'
SKIPPED = rf"<(?P<tag>code|pre|a)\b.*?</(?P=tag)>|{TAG}"
NUMBER = r"(?:0|[1-9][0-9]{0,2})(?:[.,][0-9]{1,2})?"
OTHER_NUMBER = r"[0-9½¼¾⅓⅔⅛]\s*(?:[^\w\s<>]|\w{1,3})?\s+"
"""The end of a number before, as in 1 1/2 or 1 to 2: then neither is certain."""
JOINED = r"(?<![\w.,:/#+×½¼¾⅓⅔⅛−–—-])"
NAME_WITHIN = 200
"""Characters after an amount in which the name of its product may stand."""


def with_weights(html: Markup, book: Book, products: Sequence[Product]) -> Markup:
    """A text in which an amount in a measure of the house reads as ``2 scoops (about 36 g)``.

    A plain number right before a measure's name counts, except in code and links. The weight is that of the
    product whose name follows. Where none follows, it is of the one of the recipe's ``products`` that was
    weighed in this measure, which is then named. Nothing is added where either is not certain.
    """
    forms = [(form, each) for each in book.house.measures for form in each.forms]
    if not forms:
        return html
    amount = re.compile(
        rf"{SKIPPED}|(?:(?P<other>{OTHER_NUMBER})|{JOINED})"
        rf"(?P<number>{NUMBER})(?:\s|&nbsp;)+(?P<form>{_one_of(escape(form) for form, _ in forms)})(?![\w-])",
        re.IGNORECASE | re.DOTALL,
    )

    def shown(found: re.Match[str]) -> str:
        if found["form"] is None or found["other"] is not None:
            return found[0]
        rest = bare_name(unescape(re.sub(TAG, "", html[found.end() : found.end() + NAME_WITHIN])))
        named = bare_name(unescape(found["form"]))
        held = _held(book, products, [each for form, each in forms if bare_name(form) == named], rest)
        weight = held and held[0] * Fraction(found["number"].replace(",", "."))
        if not held or not weight:
            return found[0]
        text = weight_text(book.house, weight, 0 if weight >= 10 else 1)
        return f'{found[0]} <span class="bb-soft">(about {text}{escape(held[1])})</span>'

    return finished(amount.sub(shown, html))


def _held(
    book: Book, products: Sequence[Product], measures: Measures, rest: str
) -> tuple[Fraction, str] | None:
    """What one holds, in grams, and `` of NAME`` where ``rest``, the text after it, names no product."""
    names = {
        bare_name(name): each for each in book.products.values() for name in (each.name, *each.other_names)
    }
    following = re.match(rf"(?:\w{{1,3}} ){{0,2}}({_one_of(names)})(?!\w)", rest)
    meant = [names[following[1]]] if following else products
    weights = {each.name: weight for each in meant if (weight := weight_held(measures, each)) is not None}
    if len(weights) != 1:
        return None
    ((name, weight),) = weights.items()
    return weight, "" if following else f" of {name}"


def _one_of(words: Iterable[str]) -> str:
    """A pattern for any of these words, the longest first, however its spaces are."""
    return "|".join(re.escape(each).replace(r"\ ", r"\s+") for each in sorted(words, key=len, reverse=True))
