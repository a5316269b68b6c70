"""The pages that work something out on the phone, and their data, in files named by their digest."""

from collections.abc import Iterator, Sequence
from typing import Any

from bowlbook.book.book import Book
from bowlbook.figures.unit import weight_units
from bowlbook.pages.asset import compact, data_name
from bowlbook.pages.maker import Output
from bowlbook.pages.makers import PICK, TRY
from bowlbook.pages.page import Document
from bowlbook.pages.pick_data import pick_data
from bowlbook.pages.pick_page import pick_page
from bowlbook.pages.try_data import try_data
from bowlbook.pages.try_page import try_page
from bowlbook.wording.locale_format import locale_format_of


def try_blend(book: Book, pieces: Sequence[dict[str, Any]]) -> Iterator[Output]:
    """Try a blend."""
    data = compact(try_data(book, pieces, locale_format_of(book)))
    address = f"data/{data_name(TRY, data)}"
    yield Document(address, data)
    yield try_page(address, weight_units(book.house)[0])


def pick_by_hair(book: Book, blends: list[str], pieces: Sequence[Any]) -> Iterator[Output]:
    """Pick by hair."""
    practice, *rest = pieces
    bowls = {each: bowl for each, bowl in zip(blends, rest, strict=False) if bowl is not None}
    recipes = [shown for found in rest[len(blends) :] for shown in found]
    data = compact(pick_data(practice, recipes, bowls))
    address = f"data/{data_name(PICK, data)}"
    yield Document(address, data)
    yield pick_page(address, practice)
