"""picture-without-consent: somebody can be recognised, and nothing says that the person agreed."""

from checks.small_book import TECHNIQUE_FILE, SmallBook
from photographs import write_photograph


def test_a_person_who_said_no(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    seen = "alt: The back section., person: «picture-without-consent»yes, consent: no"
    book.add(TECHNIQUE_FILE, f"pictures:\n  - {{file: back.jpg, {seen}}}\n")
    book.shows(findings=1)


def test_whether_a_person_is_seen_has_to_be_said(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    book.add(TECHNIQUE_FILE, "pictures:\n  - {file: back.jpg, alt: The back section.}\n")
    assert [each.code for each in book.judged()] == ["missing-key"]
