"""developer-over-product-limit: a developer stronger than a lightener's maker allows."""

from checks.small_book import BLEND_FILE, CLAY_FILE, DEVELOPER, POWDER_FILE, SmallBook


def test_at_the_limit_it_passes(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "40 volume", "20 volume")
    book.shows(findings=0)


def test_one_that_may_stand_in_counts_too(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "40 volume", "20 volume")
    book.write("products/developer-25.yml", DEVELOPER.replace("20\n", "25\n").replace("6 %", "7.5 %"))
    book.edit(BLEND_FILE, "-20}", "-20, also: [«developer-over-product-limit»developer-25]}")
    book.shows(findings=1)


def test_two_lighteners_make_one_finding(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "40 volume", "10 volume")
    book.add(POWDER_FILE, "developer_limit: 10 volume\n")
    book.edit(BLEND_FILE, "product: developer-20", "product: «developer-over-product-limit»developer-20")
    book.shows(findings=1)
