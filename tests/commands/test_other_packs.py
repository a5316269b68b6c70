"""A product that several suppliers sell: price lists, orders, checks and the team's page."""

from pathlib import Path

import pytest

from bowlbook.book.read_book import read_book
from bowlbook.cache.cache import Cache
from bowlbook.pages.all_pages import makers_of
from bowlbook.site.book_pages import PageHead, pages_of
from checks.small_book import CLAY_FILE, SmallBook
from commands.run import refused, run, run_json

OWN = "pack: {net: 100 g, price: 9.99, priced_on: 2026-09-01, supplier: South, article: S-1}\n"
OTHERS = """\
other_packs:
  - {net: 1 kg, price: 80.00, priced_on: 2026-09-01, supplier: North, article: N-7}
  - net: 250 g
    supplier: West
"""
HEAD = "product,article,supplier,net,price,date\n"


@pytest.fixture
def book(tmp_path: Path) -> SmallBook:
    book = SmallBook(tmp_path / "recipes")
    text = book.texts[CLAY_FILE]
    book.write(
        CLAY_FILE, "".join(line for line in text.splitlines(True) if "pack:" not in line) + OWN + OTHERS
    )
    assert book.judged() == []
    return book


def taken_over(book: SmallBook, *rows: str) -> str:
    path = book.root.parent / "list.csv"
    path.write_text(HEAD + "".join(f"{row}\n" for row in rows), encoding="utf-8")
    result = run("prices", str(path), "--take-over", recipes=book.root)
    return result.stdout + result.stderr


def test_a_list_changes_the_packs_of_the_suppliers_that_it_names(book: SmallBook) -> None:
    """Three rows about one product: by supplier, by article, and where the pack has no price yet."""
    shown = taken_over(
        book,
        "clay,,South,100 g,10.50,2026-11-01",
        ",N-7,,1 kg,85.00,2026-11-02",
        "clay,,West,250 g,24.00,2026-11-03",
    )
    assert "Took over 3 prices" in shown
    text = (book.root / CLAY_FILE).read_text(encoding="utf-8")
    assert "pack: {net: 100 g, price: 10.50, priced_on: 2026-11-01, supplier: South, article: S-1}" in text
    assert "- {net: 1 kg, price: 85.00, priced_on: 2026-11-02, supplier: North, article: N-7}" in text
    assert "  - net: 250 g\n    price: 24.00\n    priced_on: 2026-11-03\n    supplier: West\n" in text


def test_what_is_mixed_is_priced_by_the_first_pack_alone(book: SmallBook) -> None:
    before = run_json("mix", "soft-clay", "--batch", "40g", recipes=book.root)
    assert "Nothing" not in taken_over(book, ",N-7,North,1 kg,85.00,2026-11-02")
    assert run_json("mix", "soft-clay", "--batch", "40g", recipes=book.root) == before


def test_rows_that_fit_no_pack_or_one_twice_are_refused(book: SmallBook) -> None:
    text = (book.root / CLAY_FILE).read_bytes()
    assert "under other_packs in its file first" in taken_over(book, "clay,,East,1 kg,85.00,2026-11-02")
    twice = taken_over(book, ",N-7,,1 kg,85.00,2026-11-02", "clay,,North,1 kg,86.00,2026-11-02")
    assert "already has a row on line 2" in twice
    assert (book.root / CLAY_FILE).read_bytes() == text


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ((), ("South", "S-1", 9, "89.91")),
        (("--from", "north"), ("North", "N-7", 1, "80.00")),
        (("--from", "West"), ("West", None, 4, None)),
        (("--cheapest",), ("North", "N-7", 1, "80.00")),
    ],
)
def test_an_order_from_a_supplier(book: SmallBook, words: tuple[str, ...], expected: tuple) -> None:
    """40 heads take 850.5 g of clay (test_order_command): 9 of 100 g at 9.99, 1 of 1 kg at 80, 4 of 250 g."""
    found = run_json("order", "--heads", "painting=40", *words, recipes=book.root)
    lines = {line["product"]: line for each in found["suppliers"] for line in each["lines"]}
    clay = lines["clay"]
    assert (clay["supplier"], clay["article"], clay["containers"], clay["cost"]) == expected


@pytest.mark.parametrize("written", ["NORTH  Sea", "\uff2e\uff4f\uff52\uff54\uff48 Sea", "North\u00a0sea"])
def test_a_supplier_is_the_same_in_orders_price_lists_and_checks(book: SmallBook, written: str) -> None:
    """However its name is spaced, in whatever case, in wide letters (Unicode NFKC)."""
    book.edit(CLAY_FILE, "supplier: North,", f"supplier: {written},")
    assert "Took over 1 price" in taken_over(book, "clay,,north sea,1 kg,85.00,2026-11-02")
    found = run_json("order", "--heads", "painting=40", "--from", "North Sea", recipes=book.root)
    assert "85.00" in {line["cost"] for each in found["suppliers"] for line in each["lines"]}
    book.edit(CLAY_FILE, "supplier: West", "supplier: north Sea")
    assert [each.code for each in book.judged()] == ["incomplete-pack"]


def test_one_supplier_in_two_spellings_is_one_in_an_order(book: SmallBook) -> None:
    powder = book.texts["products/powder.yml"]
    book.write(
        "products/powder.yml",
        powder.replace("priced_on: 2026-09-01}", "priced_on: 2026-09-01, supplier: SOUTH}"),
    )
    found = run_json("order", "--heads", "painting=40", recipes=book.root)
    assert {each["supplier"]: len(each["lines"]) for each in found["suppliers"]}["South"] == 2


def test_the_cheapest_is_that_of_what_is_needed(book: SmallBook) -> None:
    """One head takes 21.3 g: a pack of 100 g at 9.99, not the kilogram at 80."""
    found = run_json("order", "--heads", "painting=1", "--cheapest", recipes=book.root)
    assert next(each["supplier"] for each in found["suppliers"] if each["cost"]) == "South"


def test_an_unknown_supplier_is_named(book: SmallBook) -> None:
    said = refused("order", "--heads", "painting=1", "--from", "Nort", recipes=book.root)
    assert 'Did you mean "North"?' in said


def test_checks_look_at_every_pack(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "priced_on: 2026-09-01, supplier: North", "priced_on: 2024-09-01, supplier: North")
    book.edit(
        CLAY_FILE, "net: 250 g\n    supplier: West", "net: 250 mL\n    price: 3.00\n    supplier: north"
    )
    lines = (book.root / CLAY_FILE).read_text(encoding="utf-8").splitlines()
    found = {(each.code, each.severity, lines[each.place.line - 1].strip()[:14]) for each in book.judged()}
    assert found == {
        ("stale-price", "warning", "- {net: 1 kg, "),
        ("incomplete-pack", "error", "- net: 250 mL"),
        ("incomplete-pack", "warning", "- net: 250 mL"),
        ("incomplete-pack", "error", "supplier: nort"),
    }


def test_suppliers_are_for_the_team_alone(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "form: clay\n", "form: clay\nnotes: Ask North for it.\n")
    assert [each.code for each in book.judged()] == ["private-name-in-text"]
    read = read_book(book.root).book
    assert read is not None
    page = next(
        made.content.decode()
        for made in pages_of(Cache(), read, "team", makers_of(read))
        if isinstance(made.head, PageHead) and made.head.address == "products/clay/"
    )
    assert "Other suppliers" in page and "article N-7" in page and "$8.00" in page
