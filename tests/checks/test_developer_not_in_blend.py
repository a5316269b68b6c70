"""developer-not-in-blend: a technique's bowl with a developer that the blend does not name."""

from checks.small_book import TECHNIQUE_FILE, SmallBook


def test_the_blends_own_developer(book: SmallBook) -> None:
    book.edit(TECHNIQUE_FILE, "blend: soft-clay", "blend: soft-clay\n    developer: developer-20")
    book.shows(findings=0)
