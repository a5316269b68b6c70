"""The data of Try a blend: what the public's copy does not hold, and every check of a blend on the phone."""

import json
import re
from pathlib import Path
from typing import Any

from bowlbook.book.audience import copy_for
from bowlbook.book.book import Book
from bowlbook.book.current import current
from bowlbook.checks import code_of
from bowlbook.checks.run import OF_ENTRIES
from bowlbook.entries.facets import Facets
from bowlbook.formatting.formatted import formatted
from bowlbook.pages.asset import ASSETS
from bowlbook.pages.try_data import SCHEMA_LINE, recipe_data, try_data
from bowlbook.pages.try_page import try_for
from bowlbook.reading.amount import Span
from bowlbook.reading.code import READING_CODES
from bowlbook.wording.locale_format import locale_format_of

NOT_OF_A_DRAFT = {"future-date", "uses-retired"}
"""The page writes the day itself, and nothing retired can be chosen on it."""
FOUND_THERE = re.compile(r'(?:finding|warn|says)\("([a-z-]+)"')


def _data(book: Book) -> dict[str, Any]:
    return try_data(book, [*map(recipe_data, current(book.blends).values())], locale_format_of(book))


def test_the_publics_copy_has_no_price_and_nobody_in_it(demo_book: Book) -> None:
    public = copy_for(demo_book, "public")
    data = _data(public)
    assert data["people"] == [] and data["prices"] == [] and data["priced"] is False
    text = json.dumps(data)
    team = _data(demo_book)
    assert team["people"] and team["prices"]
    assert [name for name in team["people"] if f'"{name}"' in text] == []
    assert {each["price"] for kind in ("lighteners", "developers") for each in data[kind]} == {None}


def test_the_phone_has_every_check_of_a_blend() -> None:
    scripts = "".join(path.read_text(encoding="utf-8") for path in Path(ASSETS / "try").glob("check_*.js"))
    there = set(FOUND_THERE.findall(scripts))
    of_blends = {code_of(check) for check in OF_ENTRIES if "blend" in check.KINDS}
    assert of_blends - there == NOT_OF_A_DRAFT
    of_book = {"same-name", "look-alike-id"}
    assert there - of_blends - of_book - READING_CODES.keys() == set()


def test_the_first_line_is_that_of_a_formatted_blend() -> None:
    text = f"{SCHEMA_LINE}\n\nname: A\n"
    assert formatted(text, "blend", "a.yml") == (text, [])


def test_a_head_in_the_address() -> None:
    hair = Facets(natural_level=Span(3, 4), area=("scalp regrowth",), tone=("neutral", "cool"))
    expected = "../../try/?natural_level=3~4&area=scalp+regrowth&tone=neutral~cool"
    assert try_for(hair, "situations/some/") == expected
