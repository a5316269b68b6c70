"""A row of a list, read in a second: the recipe in short, the levels served, one tag and a few words."""

from typing import NamedTuple

from markupsafe import Markup

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.entry import Entry
from bowlbook.entries.facets import Facets
from bowlbook.entries.product import STRENGTHS, Developer, Lightener, Product
from bowlbook.entries.situation import Situation
from bowlbook.entries.technique import Technique
from bowlbook.pages.placement import emblem_of
from bowlbook.pages.strip import Strip, strip_of
from bowlbook.pages.vessel import Layer, Vessel, mix_of, vessel_of
from bowlbook.wording.entry import product_note, short_recipe

TONER = "toner"
"""The placement of a toning bowl, in a list: it goes on at the basin."""


class ListRow(NamedTuple):
    """What a list shows of an entry beside its name.

    ``line``: a recipe or a sentence, ``tags``: where it goes, ``words``: the rest in a few words, which also
    name what is ``drawn``. ``picks``: what the list is narrowed down by, each value after its facet, as
    ``level-4 placement-foil tone-cool``.
    """

    line: str
    vessel: Vessel | None
    strip: Strip | None
    tags: tuple[str, ...]
    words: str
    picks: str
    drawn: Markup | None = None


def row_of(book: Book, entry: Entry) -> ListRow | None:
    """The row of a blend, technique, situation or product; None for another kind."""
    if isinstance(entry, Blend):
        return _blend(book, entry)
    if isinstance(entry, Technique):
        row = _of_facets(entry.summary or "", entry.suits, (entry.placement,))
        drawing, word = emblem_of(entry) or (None, "")
        lift = f"lift {entry.suits.lift}" if entry.suits.lift else ""
        words = " · ".join(filter(None, [word, lift])) if word else row.words  # in one line on a phone
        return row._replace(words=words, drawn=drawing.svg if drawing else None)
    if isinstance(entry, Situation):
        return _of_facets(entry.summary or "", entry.hair, entry.hair.placement)
    return _product(entry) if isinstance(entry, Product) else None


def _blend(book: Book, blend: Blend) -> ListRow:
    bases = [book.base(each.product) for each in blend.shares]
    strengths = [each.strength for each in bases if isinstance(each, Lightener)]
    strength = max(strengths, key=STRENGTHS.index, default="")
    places = (TONER,) if blend.tones else blend.suits.placement
    line = short_recipe(book, blend).replace(" · ", "\u00a0· ").replace(" volume", "\u00a0volume")
    return _of_facets(line, blend.suits, places, strength, vessel_of(book, blend))


def _of_facets(
    line: str, facets: Facets, places: tuple[str, ...], strength: str = "", vessel: Vessel | None = None
) -> ListRow:
    strip = strip_of(facets)
    lift = [f"lift {facets.lift}"] if facets.lift and not vessel else []
    words = " · ".join(filter(None, [strength, *lift, ", ".join(facets.tone)]))
    levels = range(strip.low, strip.high + 1) if strip else range(1, 11)
    picks = [f"level-{level}" for level in levels]
    picks += [f"placement-{each}" for each in places] + [f"tone-{each}" for each in facets.tone]
    picks += [f"strength-{strength}"] if strength else []
    return ListRow(line, vessel, strip, tuple(places), words, " ".join(picks))


def _product(product: Product) -> ListRow:
    layer = Layer("", mix_of(product), "0%", "100%")
    tags = product.placement if isinstance(product, Lightener | Developer) else ()
    picks = [f"kind-{product.kind}", *(f"placement-{each}" for each in tags)]
    if isinstance(product, Lightener):
        picks.append(f"strength-{product.strength}")
    vessel = None if product.kind == "supply" else Vessel((layer,), product.name)
    # The list's heading says the kind.
    line = product_note(product).removeprefix(product.kind).removeprefix(": ")
    return ListRow(line or product.summary or "", vessel, None, tags, "", " ".join(picks))
