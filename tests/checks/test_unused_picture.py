"""unused-picture: a picture in the folder that no entry shows."""

from checks.small_book import TECHNIQUE_FILE, SmallBook
from photographs import write_photograph


def test_one_that_nothing_shows(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    (found,) = book.judged()
    assert (found.code, found.severity) == ("unused-picture", "warning")
    assert found.place.path.endswith("pictures/back.jpg")


def test_one_that_a_technique_shows(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    book.add(TECHNIQUE_FILE, "pictures:\n  - {file: back.jpg, alt: The back section., person: no}\n")
    book.shows(findings=0)


def test_one_that_a_broken_entry_may_show(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    book.add(TECHNIQUE_FILE, "placement: «unknown-word»somewhere\n")
    book.shows(findings=1)
