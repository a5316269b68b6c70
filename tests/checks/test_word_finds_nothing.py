"""word-finds-nothing: what the house taught search, and the book has no word for."""

import pytest

from checks.small_book import HOUSE_FILE, SmallBook


@pytest.mark.parametrize(
    "means",
    [
        "[soft clay]",  # a name
        "[technique open-air, level 4, 20 volume]",  # a kind, hair and figures
        "[safety henna]",  # a page by hand, as the trade's own list has it
        "[Clays]",  # another case and number
    ],
)
def test_words_of_the_book_pass(book: SmallBook, means: str) -> None:
    book.add(HOUSE_FILE, f"words:\n  - {{typed: [the works], means: {means}}}\n")
    book.shows(findings=0)


@pytest.mark.parametrize(
    "means", ["«word-finds-nothing?»sofd clay", "soft clay, «word-finds-nothing?»moonbeam"]
)
def test_a_meaning_with_a_word_that_is_nowhere(book: SmallBook, means: str) -> None:
    book.add(HOUSE_FILE, f"words:\n  - {{typed: [the works], means: [{means}]}}\n")
    book.shows(findings=1)
