"""outline-does-not-add-up: a class's stretches against its duration."""

import pytest

from checks.small_book import CLASS_FILE, SmallBook


@pytest.mark.parametrize(
    ("duration", "off"),
    [
        ("190 minutes", "10 minutes shorter"),
        ("179 minutes", "1 minute longer"),
        ("180.5 minutes", "0.5 minutes shorter"),
        ("2 hours", "60 minutes longer"),
    ],
)
def test_too_much_or_too_little(book: SmallBook, duration: str, off: str) -> None:
    written = f"duration: «outline-does-not-add-up»{duration}"
    (finding,) = book.shows((CLASS_FILE, "duration: 3 hours", written), findings=1)
    assert finding.message == f"The outline is {off} than this."
    assert finding.mend.startswith("Write 180 minutes here")


def test_what_adds_up_passes(book: SmallBook) -> None:
    book.shows((CLASS_FILE, "duration: 3 hours", "duration: 180 minutes"), findings=0)
