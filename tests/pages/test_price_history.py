"""A product's prices over time: from the releases' history and the book, for the team's copy alone."""

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
from tests.site.small_site import house_config

from bowlbook.book.price_history import Price, price_history
from bowlbook.book.released import release_of
from bowlbook.cache.cache import Cache
from bowlbook.checks.judge import judge
from bowlbook.pages.price_plot import history_of
from bowlbook.reading.amount import Mass
from bowlbook.site.engine import build_into
from bowlbook.wording.locale_format import locale_format_of
from checks.small_book import DAY, POWDER_FILE, SmallBook
from commands.git import commit, git
from seeds import rows_with_long


def pack(net: str, price: str, day: str) -> str:
    return f"pack: {{net: {net}, price: {price}, priced_on: {day}}}\n"


PRICES = (
    Price(date(2025, 9, 1), Fraction(30), Mass(Fraction(500), "g")),
    Price(date(2026, 3, 1), Fraction(33), Mass(Fraction(500), "g")),
    Price(date(2026, 9, 1), Fraction(28), Mass(Fraction(400), "g")),
)


@pytest.fixture
def book(tmp_path: Path) -> SmallBook:
    """Two releases, a rename between them, a currency and a slip that are passed over, a price of today."""
    book = SmallBook(tmp_path / "recipes")
    git(tmp_path, "init", "-q")
    book.add(POWDER_FILE, pack("500 g", "30.00", "2025-09-01"))
    commit(tmp_path, tag="one")
    book.add(POWDER_FILE, pack("500 g", "31.00", "2025-10-01").replace("}", ", currency: EUR}"))
    git(tmp_path, "commit", "-qam", "In euros")
    book.add(POWDER_FILE, pack("500 g", "32,00", "2025-11-01"))
    git(tmp_path, "commit", "-qam", "A slip")
    text = book.texts.pop(POWDER_FILE)
    (book.root / POWDER_FILE).unlink()
    book.write("products/white.yml", text + "formerly: [powder]\n")
    book.add("products/white.yml", pack("500 g", "33.00", "2026-03-01"))
    book.edit("blends/soft-clay.yml", "product: powder", "product: white")
    commit(tmp_path, tag="two")
    book.add("products/white.yml", pack("400 g", "28.00", "2026-09-01"))
    return book


def test_every_price_once_oldest_first_under_every_id(book: SmallBook) -> None:
    read = book.read()
    found = price_history(book.root, read, release_of(book.root), Cache())
    assert found == {"white": PRICES}
    assert price_history(book.root, read, None, Cache()) == {}


def test_the_plot_and_the_table_say_the_same(book: SmallBook) -> None:
    """Worked by hand: 30/500 g, 33/500 g and 28/400 g are 6.00, 6.60 and 7.00 for 100 g."""
    read = book.read()
    shown = history_of(read.products["white"], PRICES, locale_format_of(read))
    assert shown is not None and shown.plot is not None
    assert [row[1:] for row in shown.rows] == [
        ("400 g", "$28.00", "$7.00"),
        ("500 g", "$33.00", "$6.60"),
        ("500 g", "$30.00", "$6.00"),
    ]
    assert shown.plot.words == ("The price of 100 g: $6.00 on September 1, 2025, $7.00 on September 1, 2026.")
    # From 6.00 of 7.00 at the left, over 6.60 after 181 of 365 days, to the top at the right.
    assert 'points="10.0,32.9 158.8,32.9 158.8,25.1 310.0,25.1 310.0,20.0"' in str(shown.plot.svg)
    assert history_of(read.products["white"], PRICES[:1], locale_format_of(read)) is None


@pytest.mark.parametrize("audience, shown", rows_with_long([("team", True)], [("public", False)]))
def test_on_the_page_of_the_team_alone(book: SmallBook, audience: str, shown: bool) -> None:
    site = book.root.parent / "site"
    build_into(site, house_config(book), judge(book.root, DAY), [].append, audience=audience)
    text = (site / "products/white/index.html").read_text(encoding="utf-8")
    assert ("Prices over time" in text) == shown == ("$33.00" in text)
