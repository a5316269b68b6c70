"""developer-not-in-blend: a technique's bowl with a developer that the blend does not name."""

from checks.small_book import BLEND_FILE, DEVELOPER, TECHNIQUE_FILE, SmallBook

TEN = DEVELOPER.replace("20\n", "10\n").replace("6 %", "3 %")


def test_a_developer_of_another_blend(book: SmallBook) -> None:
    book.write("products/developer-10.yml", TEN)
    book.edit(
        TECHNIQUE_FILE,
        "blend: soft-clay",
        "blend: soft-clay\n    developer: «developer-not-in-blend»developer-10",
    )
    book.shows(findings=1)


def test_a_developer_under_also(book: SmallBook) -> None:
    book.write("products/developer-10.yml", TEN)
    book.edit(BLEND_FILE, "product: developer-20}", "product: developer-20, also: [developer-10]}")
    book.edit(TECHNIQUE_FILE, "blend: soft-clay", "blend: soft-clay\n    developer: developer-10")
    book.shows(findings=0)


def test_the_blends_own_developer(book: SmallBook) -> None:
    book.edit(TECHNIQUE_FILE, "blend: soft-clay", "blend: soft-clay\n    developer: developer-20")
    book.shows(findings=0)
