"""The book that the checks are shown on is itself without a finding, and its marks point where they stand."""

from checks.small_book import HOUSE_FILE, SmallBook


def test_it_has_no_finding(book: SmallBook) -> None:
    book.shows(findings=0)


def test_a_mark_stands_for_the_place_of_what_follows_it(book: SmallBook) -> None:
    book.write(HOUSE_FILE, "title: x\nlist: [«one»a, «two?»b]\n")
    assert book.expected() == [("house.yml", 2, 8, "one", "error"), ("house.yml", 2, 11, "two", "warning")]
    assert (book.root / HOUSE_FILE).read_text(encoding="utf-8") == "title: x\nlist: [a, b]\n"
