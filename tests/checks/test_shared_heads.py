"""shared-heads: practice heads that are to be used again, and that no earlier demonstration has."""

import pytest

from checks.small_book import CLASS_FILE, SmallBook

SHOWN = "  - {technique: painting, heads: 1}"
PAIRS = "  - {technique: painting, heads: 0, learners_per_head: 2}"
AGAIN = "  - {technique: painting, heads: 0, shares_heads_with: painting}"
WRONG = AGAIN.replace("with: ", "with: «shared-heads»")


@pytest.mark.parametrize(
    ("demonstrations", "findings"),
    [
        ([PAIRS, AGAIN], 0),
        ([PAIRS, AGAIN, AGAIN], 0),
        ([WRONG], 1),
        ([SHOWN, WRONG], 1),
        ([WRONG, PAIRS], 1),
        ([PAIRS, WRONG.replace("heads: 0", "heads: 0, learners_per_head: 3")], 1),
    ],
)
def test_what_is_shared(book: SmallBook, demonstrations: list[str], findings: int) -> None:
    book.edit(CLASS_FILE, SHOWN, "\n".join(demonstrations))
    book.shows(findings=findings)
