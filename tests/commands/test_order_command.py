"""The order: what classes and heads take together, in whole containers, by supplier."""

import csv
import io
from fractions import Fraction
from pathlib import Path

import pytest

from checks.small_book import CLAY_FILE, POWDER_FILE, SmallBook
from commands.run import refused, run, run_json


@pytest.fixture
def book(tmp_path: Path) -> SmallBook:
    """The small book; clay and powder come from two suppliers, and nobody wrote where the rest is bought."""
    book = SmallBook(tmp_path / "recipes")
    book.add(
        CLAY_FILE, "pack: {net: 100 g, price: 9.99, priced_on: 2026-09-01, supplier: South, article: 0012}\n"
    )
    book.add(POWDER_FILE, "pack: {net: 50 g, price: 4.00, priced_on: 2026-09-01, supplier: North}\n")
    return book


def lines(found: dict) -> dict[str, dict]:
    return {line["product"]: line for each in found["suppliers"] for line in each["lines"]}


def test_heads_by_supplier(book: SmallBook) -> None:
    """Worked by hand: 12 sections x 5 g are 60 g mixed at 1:2, 20 g of it lightener (0.71 oz), a head takes
    the batch of 1 oz, 3:1. 40 x 0.75 oz of clay are 850.5 g, 9 packs; 40 x 0.25 oz of powder 283.5 g, 6."""
    found = run_json("order", "--heads", "painting=40", recipes=book.root)
    assert [each["supplier"] for each in found["suppliers"]] == ["North", "South", None]
    by_id = lines(found)
    clay, powder, foil = by_id["clay"], by_id["powder"], by_id["foil"]
    assert (clay["needs"], clay["containers"], clay["cost"], clay["article"]) == ("850 g", 9, "89.91", "0012")
    assert (powder["needs"], powder["containers"], powder["cost"]) == ("283 g", 6, "24.00")
    assert foil["needs"] == "400 pieces"
    total = sum(Fraction(line["cost"]) for line in by_id.values() if line["cost"])
    assert Fraction(found["known_cost"]) == total


def test_a_class_is_its_kit(book: SmallBook) -> None:
    kit = run_json("kit", "first-painting", "--learners", "9", recipes=book.root)
    found = lines(run_json("order", "--class", "first-painting=9", recipes=book.root))
    assert {each["product"]: each["containers"] for each in kit["lines"]} == {
        product: line["containers"] for product, line in found.items()
    }


def test_together_they_share_a_container(book: SmallBook) -> None:
    one = lines(run_json("order", "--heads", "painting=2", recipes=book.root))
    both = run_json("order", "--heads", "painting=2", "--heads", "painting=2", recipes=book.root)
    assert one["clay"]["containers"] == 1  # 43 g of 100 g
    assert lines(both)["clay"]["containers"] == 1  # 85 g


def test_the_table_is_the_list(book: SmallBook) -> None:
    words = ("order", "--class", "first-painting", "--heads", "painting=40")
    rows = list(csv.DictReader(io.StringIO(run(*words, "--csv", recipes=book.root).stdout)))
    data = run_json(*words, recipes=book.root)
    expected = [line for each in data["suppliers"] for line in each["lines"]]
    assert rows == [
        {key: "" if value is None else str(value) for key, value in line.items()} for line in expected
    ]
    shown = run(*words, recipes=book.root).stdout
    assert "South: " in shown and "article 0012" in shown and "No supplier written" in shown


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "Say what the order is for"),
        (("--heads", "painting"), "How many heads?"),
        (("--heads", "painting=0"), "no number from 1"),
        (("--heads", "painting=1e3"), "no number from 1"),
        (("--heads", "paintin=3"), "painting"),
        (("--class", "first-painting=501"), "1 to 500 learners"),
        (("--heads", "painting=1", "--length", "long"), "has not measured long hair"),
        (("--heads", "painting=1", "--csv", "--json"), "one of"),
    ],
)
def test_wrong_use(book: SmallBook, words: tuple[str, ...], says: str) -> None:
    assert says in refused("order", *words, recipes=book.root)
