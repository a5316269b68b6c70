"""outline-does-not-add-up: a class's stretches against its duration."""

import pytest

from checks.small_book import CLASS_FILE, SmallBook


@pytest.mark.parametrize("duration", ["170 minutes", "180.5 minutes", "2 hours"])
def test_too_much_or_too_little(book: SmallBook, duration: str) -> None:
    book.edit(CLASS_FILE, "duration: 3 hours", f"duration: «outline-does-not-add-up»{duration}")
    book.shows(findings=1)


def test_the_message_says_by_how_much(book: SmallBook) -> None:
    book.edit(CLASS_FILE, "duration: 3 hours", "duration: 190 minutes")
    (finding,) = book.judged()
    assert finding.message == "The outline is 10 minutes shorter than this."
    assert finding.mend.startswith("Write 180 minutes here")


@pytest.mark.parametrize("duration", ["180 minutes", "3 hours"])
def test_what_adds_up_passes(book: SmallBook, duration: str) -> None:
    book.edit(CLASS_FILE, "duration: 3 hours", f"duration: {duration}")
    book.shows(findings=0)
