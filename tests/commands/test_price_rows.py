"""Rows of a price list that are refused, each for its own reason at its own cell, and nothing is written.

How many decimals a currency has is held against ISO 4217 in ``tests/reference/test_money.py``.
"""

import pytest
from tests.site.small_site import bytes_of

from checks.small_book import (
    BLEND_FILE,
    CLAY_FILE,
    DEVELOPER_FILE,
    HOUSE_FILE,
    POWDER_FILE,
    SmallBook,
)
from commands.run import run

DAY, HEAD = "2026-11-20", "product,net,price,date"


def priced(book: SmallBook, head: str, *rows: str) -> tuple[int, str]:
    """Take a list over: the exit code, and what is said on standard error. Refused, no file may differ."""
    path = book.root.parent / "list.csv"
    path.write_text("\n".join([head, *rows, ""]), encoding="utf-8")
    before = bytes_of(book.root)
    result = run("prices", str(path), "--take-over", recipes=book.root)
    assert (bytes_of(book.root) == before) == (result.exit_code == 1)
    return result.exit_code, result.stderr


def taken(book: SmallBook, *rows: str) -> tuple[int, list[str]]:
    """The same with the usual head: the exit code, and each finding without its path."""
    code, said = priced(book, HEAD, *rows)
    return code, [line.split("list.csv:")[1] for line in said.splitlines() if "list.csv:" in line]


def refused(book: SmallBook, row: str) -> str:
    """The one finding of a list of one row."""
    code, [finding] = taken(book, row)
    assert code == 1
    return finding


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        ("developer-20,500 pieces", "2:14: incomplete-pack A developer is weighed, not counted."),
        ("powder,16 fl oz", "2:8: incomplete-pack A powder is sold by weight; 16 fl oz is a volume."),
        ("foil,500 g", "2:6: incomplete-pack A supply is counted."),
        ("developer-20,32 oz", "2:14: wrong-unit The book's pack is 1 L, a volume; 32 oz is a weight."),
    ],
)
def test_a_pack_of_a_wrong_kind(book: SmallBook, row: str, expected: str) -> None:
    assert refused(book, f"{row},14.00,{DAY}") == expected


def test_every_pack_of_a_wrong_kind_in_one_go_with_the_other_mistakes(book: SmallBook) -> None:
    rows = [f"developer-20,500 pieces,14.00,{DAY}", f"foil,500 g,14.00,{DAY}", f"clay,450 g,4.0.0,{DAY}"]
    code, findings = taken(book, *rows)
    assert code == 1
    assert [finding.split(" ")[:2] for finding in findings] == [
        ["2:14:", "incomplete-pack"],
        ["3:6:", "incomplete-pack"],
        ["4:12:", "bad-amount"],
    ]


def test_a_volume_without_a_density(book: SmallBook) -> None:
    """The first pack of a product, which could not be weighed."""
    book.edit(
        DEVELOPER_FILE, "density: 1.02 g/mL\npack: {net: 1 L, price: 14.50, priced_on: 2026-09-01}\n", ""
    )
    assert refused(book, f"developer-20,1 L,14.00,{DAY}").startswith(
        "2:14: incomplete-pack It is sold by volume"
    )


def test_the_same_kind_of_pack_in_another_unit(book: SmallBook) -> None:
    assert taken(book, f"developer-20,33 fl oz,14.00,{DAY}", f"clay,16 oz,38.00,{DAY}") == (0, [])
    book.shows(findings=0)


@pytest.mark.parametrize(
    ("currency", "price", "message"),
    [
        ("USD", "3.999", "A price in USD has 2 decimals."),
        ("JPY", "60.50", "A price in JPY has no decimals."),
        ("KWD", "3.9995", "A price in KWD has 3 decimals."),
        ("CAD", "1e3", "This is not a price: an exponent has no place here."),
        ("CAD", "12.00 EUR", "The house reckons in CAD, and this price is in EUR."),
        ("CAD", "EUR 12.00", "The house reckons in CAD, and this price is in EUR."),
    ],
)
def test_a_price_that_cannot_be(book: SmallBook, currency: str, price: str, message: str) -> None:
    book.edit(HOUSE_FILE, "currency: CAD", f"currency: {currency}")
    finding = refused(book, f"clay,450 g,{price},{DAY}")
    assert finding.startswith("2:12: ") and finding.endswith(message)


@pytest.mark.parametrize(
    ("currency", "price"),
    [
        ("USD", "3.99"),
        ("USD", "3.990"),
        ("JPY", "60"),
        ("JPY", "60.00"),
        ("KWD", "3.999"),
        ("CAD", "12.00 CAD"),
    ],
)
def test_a_price_that_can_be(book: SmallBook, currency: str, price: str) -> None:
    book.edit(HOUSE_FILE, "currency: CAD", f"currency: {currency}")
    assert taken(book, f"clay,450 g,{price},{DAY}") == (0, [])


def test_the_mend_of_a_price_that_is_too_fine(book: SmallBook) -> None:
    assert "Write 3.99 or 4.00, as" in priced(book, HEAD, f"clay,450 g,3.999,{DAY}")[1]


@pytest.mark.parametrize(
    ("day", "expected"),
    [
        ("2026-08-31", "2:19: bad-price-list The price in the book is of 2026-09-01, and this one is older."),
        ("2026-11-26", "2:19: future-date This day is still to come (today is 2026-11-25)."),
    ],
)
def test_a_day_that_cannot_be(book: SmallBook, day: str, expected: str) -> None:
    assert refused(book, f"clay,450 g,38.00 ,{day}") == expected


@pytest.mark.parametrize("day", ["2026-09-01", "2026-11-25"])
def test_the_book_s_own_day_and_today(book: SmallBook, day: str) -> None:
    assert taken(book, f"clay,450 g,38.00,{day}") == (0, [])


def test_a_first_price_that_is_stale_already_is_a_warning(book: SmallBook) -> None:
    book.edit(DEVELOPER_FILE, ", price: 14.50, priced_on: 2026-09-01", "")
    code, [finding] = taken(book, "developer-20,1 L,14.00,2025-01-02")
    assert code == 0 and finding.startswith("2:24: stale-price (warning)")


def test_a_file_that_was_changed_while_the_list_was_read(
    book: SmallBook, monkeypatch: pytest.MonkeyPatch
) -> None:
    from bowlbook.commands import prices as room

    read = room.read_price_list

    def slow(*given: object) -> object:
        found = read(*given)  # type: ignore[arg-type]
        book.edit(DEVELOPER_FILE, "name: Developer 20", "name: Twenty")
        return found

    monkeypatch.setattr(room, "read_price_list", slow)
    path = book.root.parent / "list.csv"
    path.write_text(f"{HEAD}\ndeveloper-20,1 L,14.00,{DAY}\n", encoding="utf-8")
    result = run("prices", str(path), "--take-over", recipes=book.root)
    assert result.exit_code == 1 and "This file was changed meanwhile." in result.stderr
    assert "14.50" in (book.root / DEVELOPER_FILE).read_text(encoding="utf-8")


def test_a_list_for_a_book_with_an_error_is_not_read(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "product: clay", "product: clayy")
    code, said = priced(book, HEAD)
    assert code == 1 and "unknown-id" in said


@pytest.mark.parametrize(
    ("head", "row", "net", "price"),
    [
        ("product;net;price;date", f"powder;450 g;31,90;{DAY}", "450 g", "31.90"),
        ("product\tnet\tprice\tdate", f"powder\t0,5 kg\t1.031,9\t{DAY}", "0.5 kg", "1031.9"),
        ("product,net,price,date", f'powder,450 g,"31,90",{DAY}', "450 g", "31.90"),
        ("product;net;price;date", f"powder;450 g;31,90 CAD;{DAY}", "450 g", "31.90"),
        ("product;net;price;date", f"White POWDER;450 g;31.90;{DAY}", "450 g", "31.90"),
        ("product;net;price;date", f"snow;450 g;31.90;{DAY}", "450 g", "31.90"),
        ("article;net;price;date", f"00417-b;450 g;31.90;{DAY}", "450 g", "31.90"),
        ("product;article;net;price;date", f";00417-B;450 g;31.90;{DAY}", "450 g", "31.90"),
        ("article;supplier;net;price;date", f"00417-B;north & co;450 g;31.90;{DAY}", "450 g", "31.90"),
    ],
)
def test_as_suppliers_write_them(book: SmallBook, head: str, row: str, net: str, price: str) -> None:
    book.edit(POWDER_FILE, "name: Violet powder", "name: White powder\nother_names: [Snow]")
    text = "pack: {net: 500 g, price: 30.00, priced_on: 2026-09-01, supplier: North & Co, article: 00417-B}\n"
    book.add(POWDER_FILE, text)
    code, said = priced(book, head, row)
    assert code == 0, said
    now = (book.root / POWDER_FILE).read_text(encoding="utf-8").splitlines()[-1]
    assert (
        now
        == f"pack: {{net: {net}, price: {price}, priced_on: {DAY}, supplier: North & Co, article: 00417-B}}"
    )


@pytest.mark.parametrize(
    ("head", "row", "says"),
    [
        ("product;net;price;date", f"powder;450 g;1,234;{DAY}", "a comma could mean tenths or thousands"),
        ("product;net;price;date", f"powder;450 g;1,234,5;{DAY}", "bad-amount"),
        ("product;net;price;date", f"twin;450 g;31,90;{DAY}", '"twin" may be clay or powder.'),
        ("article;net;price;date", f"12;450 g;31,90;{DAY}", "Article 12 may be clay or powder."),
        ("article;net;price;date", f"13;450 g;31,90;{DAY}", "No pack in the book has the article 13."),
        ("product;article;net;price;date", f"foil;12;500 pieces;31,90;{DAY}", "Article 12 may be"),
        (
            "product;supplier;net;price;date",
            f"powder;West;450 g;31,90;{DAY}",
            "another supplier than West",
        ),
        ("article;net;price;date", f";450 g;31,90;{DAY}", "No product is named here."),
    ],
)
def test_what_is_not_certain_is_refused(book: SmallBook, head: str, row: str, says: str) -> None:
    for path, supplier in ((CLAY_FILE, "South"), (POWDER_FILE, "North")):
        book.add(path, f"other_names: [Twin]\npack: {{net: 500 g, supplier: {supplier}, article: 12}}\n")
    code, said = priced(book, head, row)
    assert code == 1 and says in said


def test_the_supplier_says_which_of_two_articles(book: SmallBook) -> None:
    for path, supplier in ((CLAY_FILE, "South"), (POWDER_FILE, "North")):
        book.add(path, f"pack: {{net: 500 g, supplier: {supplier}, article: 12}}\n")
    code, said = priced(book, "article;supplier;net;price;date", f"12;north;450 g;31,90;{DAY}")
    assert code == 0, said
    assert "31.90" in (book.root / POWDER_FILE).read_text(encoding="utf-8")


def test_one_product_under_two_names_is_one_row_too_many(book: SmallBook) -> None:
    rows = [f"powder,450 g,31.90,{DAY}", f"violet powder,450 g,32.90,{DAY}"]
    code, findings = taken(book, *rows)
    assert code == 1
    assert findings == ['3:1: duplicate-reference "powder" already has a row on line 2.']
