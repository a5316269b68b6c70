"""price-in-text: a price in a text that goes to the public."""

import re
import unicodedata

import pytest

from bowlbook.book.recorded_book import FACTS, recorded_book
from bowlbook.cache.recording import Lookup
from bowlbook.checks.price_in_text import SIGNS, find
from checks.small_book import BLEND_FILE, CLASS_FILE, DAY, HOUSE_FILE, POWDER_FILE, SmallBook


@pytest.mark.parametrize(
    "text",
    [
        "The powder is $47.50 a tub.",
        "About 12 € a bowl",
        "€12,50",
        "CAD 12.50 a bowl",
        "12.50 CAD a bowl",
        "JPY1200",
        "It costs 39 euros a tub.",
        "2 Franken a bowl",
        "¥ 1200",
        "It went up to 47.50 this autumn.",  # what the powder's pack costs
        "47,50 a tub",
        "39.00",
    ],
)
def test_a_price(book: SmallBook, text: str) -> None:
    book.add(BLEND_FILE, f'notes: «price-in-text»"{text}"\n')
    book.shows(findings=1)


@pytest.mark.parametrize(
    "text",
    [
        "39.00 g and 47.50 g in two bowls",
        "A tub of 2 pounds; weigh 12 centimetres of foil",
        "1:2, then 1:1.5; levels 6-10",
        "41.25 is no pack's price",
        "Use 20 volume, 6 %, for 35 minutes.",
        "The USA and the CAD drawing",
        "ABC 12 is no currency",
        "Zones 2 and 3; 47:50 on the clock",
    ],
)
def test_other_numbers_pass(book: SmallBook, text: str) -> None:
    book.add(BLEND_FILE, f'notes: "{text}"\n')
    book.shows(findings=0)


def test_what_is_private_may_say_it(book: SmallBook) -> None:
    book.add(BLEND_FILE, "private: The powder is $47.50 a tub.\n")
    book.shows(findings=0)


def test_in_any_kind_of_entry_and_deep_in_it(book: SmallBook) -> None:
    book.edit(HOUSE_FILE, "notice: An", "notice: «price-in-text»From $10, an")
    book.edit(CLASS_FILE, "what: Theory.", "what: «price-in-text»Theory for 20 CAD.")
    book.edit(
        POWDER_FILE, "pigment: blue-violet", "pigment: blue-violet\nnotes: «price-in-text»£40 in spring"
    )
    book.shows(findings=3)


def test_the_signs_are_those_of_unicode() -> None:
    """Source: the Unicode character database that Python carries, category Sc."""
    signs = re.compile(f"[{SIGNS}]")
    for number in range(0x10000):
        if not 0xD800 <= number < 0xE000:
            known = unicodedata.category(chr(number)) == "Sc"
            assert known <= bool(signs.fullmatch(chr(number))), hex(number)  # Python may know fewer


def test_it_is_at_the_line_of_the_price(book: SmallBook) -> None:
    book.add(
        BLEND_FILE, "notes: |\n  Scrape the bowl.\n  It is «price-in-text»$47.50 a tub, 12.50 CAD a bowl.\n"
    )
    book.shows(findings=1)


@pytest.mark.parametrize(("text", "looked_up"), [("Mix it slowly.", False), ("41.25 is no price", True)])
def test_prices_are_looked_up_only_where_a_text_may_hold_one(
    book: SmallBook, text: str, looked_up: bool
) -> None:
    """Else a price that changes would have every entry checked again."""
    book.add(BLEND_FILE, f'notes: "{text}"\n')
    lookups: set[Lookup] = set()
    read = book.read()
    (blend,) = read.blends.values()
    assert not list(find(recorded_book(read, lookups), blend, DAY))
    assert ((FACTS, "prices") in lookups) is looked_up
