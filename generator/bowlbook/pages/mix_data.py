"""The data of a blend's page for its script: the recipe in exact numbers, and the house's money format."""

from typing import Any

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.product import Developer, Product
from bowlbook.figures.bowl import density_of, developers_of, ladder_of, largest_batch
from bowlbook.figures.cost import price_per_gram
from bowlbook.reading.amount import plain
from bowlbook.wording.developer import developer_name
from bowlbook.wording.locale_format import LocaleFormat


def mix_data(book: Book, blend: Blend, formats: LocaleFormat) -> dict[str, Any]:
    """The recipe as plain data. Numbers are texts, ``"3/4"`` or ``"2"``: a JSON number would be rounded."""
    steps = {unit: plain(step) for unit, _, step in ladder_of(book, blend)}
    additives = [(each, book.additive(each.product)) for each in blend.additives]
    return {
        "bases": [
            {**product_data(book.base(each.product)), "parts": str(each.parts)} for each in blend.shares
        ],
        "ratio": str(blend.developer.ratio.value),
        "developers": [product_data(each) for each in developers_of(book, blend)],
        "additives": [
            {**product_data(additive), "ratio": str(each.ratio.value), "dose": _dose(additive)}
            for each, additive in additives
        ],
        "role": "toner" if blend.tones else "lightener",
        "tolerance": str(book.house.rounding_tolerance / 100),
        "largest": str(largest_batch(book.house)),
        "tolerance_text": f"{plain(book.house.rounding_tolerance)} %",
        "steps": steps,
        "priced": formats.priced,
        "money": formats.money_form(),
    }


def _dose(product: Product) -> str | None:
    """The maker's dose as additive over lightener; None where there is none."""
    dose = getattr(product, "dose", None)
    return None if dose is None else str(dose.value)


def product_data(product: Product) -> dict[str, str | None]:
    """A product as data: id, name (a developer's with its volume), density, price by the gram, peroxide."""
    density = density_of(product)
    price = price_per_gram(product.pack, density)
    found = {
        "id": product.id,
        "name": product.name,
        "density": None if density is None else str(density),
        "price": None if price is None else str(price),
    }
    if isinstance(product, Developer):
        found["name"] = developer_name(product)
        # Only developers bring peroxide that the book counts.
        found["peroxide"] = str(product.peroxide_percent)
    return found
