"""no-heads: a demonstration that nobody's hair is in."""

from checks.small_book import CLASS_FILE, SmallBook


def test_on_no_head(book: SmallBook) -> None:
    book.edit(CLASS_FILE, "heads: 1", "heads: «no-heads»0")
    book.shows(findings=1)


def test_on_practice_heads_only(book: SmallBook) -> None:
    book.edit(CLASS_FILE, "heads: 1", "heads: 0, learners_per_head: 2")
    book.shows(findings=0)
