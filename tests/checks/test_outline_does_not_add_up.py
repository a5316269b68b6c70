"""outline-does-not-add-up: a class's stretches against its duration."""

import pytest

from checks.small_book import CLASS_FILE, SmallBook


@pytest.mark.parametrize("duration", ["170 minutes", "180.5 minutes", "2 hours"])
def test_too_much_or_too_little(book: SmallBook, duration: str) -> None:
    book.edit(CLASS_FILE, "duration: 3 hours", f"duration: «outline-does-not-add-up»{duration}")
    book.shows(findings=1)


@pytest.mark.parametrize("duration, off", [(190, "10 minutes shorter"), (179, "1 minute longer")])
def test_the_message_says_by_how_much(book: SmallBook, duration: int, off: str) -> None:
    book.edit(CLASS_FILE, "duration: 3 hours", f"duration: {duration} minutes")
    (finding,) = book.judged()
    assert finding.message == f"The outline is {off} than this."
    assert finding.mend.startswith("Write 180 minutes here")


@pytest.mark.parametrize("duration", ["180 minutes", "3 hours"])
def test_what_adds_up_passes(book: SmallBook, duration: str) -> None:
    book.edit(CLASS_FILE, "duration: 3 hours", f"duration: {duration}")
    book.shows(findings=0)
