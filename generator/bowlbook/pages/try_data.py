"""The data of Try a blend: the shelf, the house's limits and rules, and the recipes.

Numbers are texts, ``"3/4"`` or ``"2"``: a JSON number would be rounded. What the public's copy does not have
(prices, staff, suppliers) is not in it.
"""

from collections.abc import Iterable, Sequence
from typing import Any

from bowlbook.book.book import Book
from bowlbook.book.current import ids_by_name
from bowlbook.book.folder import RESERVED
from bowlbook.book.lazy_entries import outlines_of
from bowlbook.checks.unknown_currency import currencies
from bowlbook.entries.blend import Blend
from bowlbook.entries.entry_id import LONGEST_ID
from bowlbook.entries.facets import FACETS
from bowlbook.entries.gap import STARTS
from bowlbook.entries.house import House
from bowlbook.entries.ladder import UNITS
from bowlbook.entries.product import STRENGTHS, Additive, Developer, Lightener, Product, Toner
from bowlbook.entries.rule import Rule, Traits
from bowlbook.figures.bowl import largest_batch
from bowlbook.figures.head import bits_of
from bowlbook.figures.unit import weight_text
from bowlbook.pages.mix_data import product_data
from bowlbook.pages.try_page import CHOICES
from bowlbook.reading.amount import Ratio, Span, plain
from bowlbook.wording.locale_format import LocaleFormat

SCHEMA_LINE = "# yaml-language-server: $schema=../../.bowlbook/schema/blend.json"
"""The first line of a blend's file, as ``bowlbook new`` writes it."""


def try_data(book: Book, recipes: Sequence[dict[str, Any]], formats: LocaleFormat) -> dict[str, Any]:
    """What the page reckons with. ``recipes``: the `recipe_data` of the book's blends in use.

    ``facets``: of each its name, title, values, and 1 where it is a range. A set of heads is a list with a
    bit set for each of them. ``rules``: house rules about hair alone, each with its place among all.
    ``taken``: ids that a new blend cannot have. ``people`` and ``prices``: what no text of a blend may hold.
    """
    by_name = [book.products[each] for each in ids_by_name(book.products)]
    return {
        **_shelf(by_name),
        **_weighing(book.house),
        "priced": formats.priced,
        "money": formats.money_form(),
        "facets": [[name, title, values, int(ranged)] for name, title, values, ranged in CHOICES.values()],
        "strengths": list(STRENGTHS),
        "rules": [
            _rule(place, each)
            for place, each in enumerate(book.house.rules)
            if each.when.of_hair_alone and (each.exclude or each.require)
        ],
        "recipes": recipes,
        "taken": [
            *(former for each in outlines_of(book.blends).values() for former in each.formerly),
            *(entry_id for entry_id, each in outlines_of(book.blends).items() if each.retired),
        ],
        "people": list(book.people),
        "prices": [str(each) for each in book.prices],
        "currencies": " ".join(sorted(currencies())),
        "gaps": sorted(STARTS),
        "reserved": RESERVED.pattern,
        "longest_id": LONGEST_ID,
        "schema": SCHEMA_LINE,
    }


def _shelf(by_name: Sequence[Product]) -> dict[str, Any]:
    """What a blend is put together from, by name; developers the weakest first."""
    developers = sorted(
        (each for each in by_name if isinstance(each, Developer)), key=lambda each: each.volume
    )
    return {
        "lighteners": [_base(each) for each in by_name if isinstance(each, Lightener)],
        "toners": [_base(each) for each in by_name if isinstance(each, Toner)],
        "developers": [
            {**product_data(each), "label": each.name, "volume": plain(each.volume)} for each in developers
        ],
        "additives": [
            {**product_data(each), "dose": _ratio(getattr(each, "dose", None))}
            for each in by_name
            if isinstance(each, Additive | Toner)
        ],
    }


def _weighing(house: House) -> dict[str, Any]:
    """What a house weighs with and how much at once, and how strong a developer may be."""
    return {
        "steps": {unit: plain(step) for unit in UNITS if (step := house.scale_step.of(unit)) is not None},
        "sizes": {unit: [plain(size) for size in house.batches.of(unit)] for unit in UNITS},
        "tolerance": str(house.rounding_tolerance / 100),
        "tolerance_text": f"{plain(house.rounding_tolerance)} %",
        "largest": str(largest_batch(house)),
        "largest_text": weight_text(house, largest_batch(house), 0),
        "on_scalp": plain(house.on_scalp_developer_limit),
        "limits": [
            [each.jurisdiction, plain(each.peroxide), each.since.isoformat(), each.source]
            for each in house.limits
        ],
    }


def _ratio(ratio: Ratio | None) -> str | None:
    return None if ratio is None else str(ratio)


def _base(product: Lightener | Toner) -> dict[str, Any]:
    """A lightener or toner, with what its maker allows."""
    ratio, limit = product.mixing_ratio, product.developer_limit
    return {
        **product_data(product),
        "usual": str(ratio.usual),
        "from": _ratio(ratio.from_),
        "to": _ratio(ratio.to),
        "limit": None if limit is None else plain(limit),
        **(
            {
                "strength": product.strength,
                "form": product.form,
                "pigment": product.pigment,
                "lifts": product.lifts,
                "placement": list(product.placement),
            }
            if isinstance(product, Lightener)
            else {"levels": [int(each) for each in product.levels]}
        ),
    }


def _rule(place: int, rule: Rule) -> dict[str, Any]:
    return {
        "place": place,
        "when": [bits_of(name, getattr(rule.when, name)) for name in FACETS],
        "exclude": _traits(rule.exclude),
        "require": _traits(rule.require),
        "because": rule.because,
    }


def _traits(traits: Traits | None) -> dict[str, Any] | None:
    if traits is None:
        return None
    span = traits.developer
    return {
        **{name: list(getattr(traits, name)) for name in ("placement", "strength", "form", "pigment")},
        "developer": None if span is None else [span.low, span.high],
    }


def recipe_data(blend: Blend) -> dict[str, Any]:
    """A recipe of the book as the page writes one, and its id."""
    minutes = {"fresh_for": plain(blend.fresh_for)} if blend.fresh_for else {}
    return {
        "id": blend.id,
        "name": blend.name,
        "toners" if blend.tones else "lighteners": [
            {"product": each.product, "parts": plain(each.parts)} for each in blend.shares
        ],
        "developer": {
            "ratio": str(blend.developer.ratio),
            "product": blend.developer.product,
            "also": list(blend.developer.also),
        },
        "additives": [{"product": each.product, "ratio": str(each.ratio)} for each in blend.additives],
        **minutes,
        "suits": {name: said for name in FACETS if (said := _said(getattr(blend.suits, name)))},
        "cautions": list(blend.cautions),
    }


def _said(value: Span | Iterable[str] | None) -> str | list[str] | None:
    """A facet's value as it is written in an entry; None where nothing is said."""
    if isinstance(value, Span):
        return str(value.low) if value.low == value.high else f"{value.low}-{value.high}"
    return list(value or ()) or None
