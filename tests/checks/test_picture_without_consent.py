"""picture-without-consent: somebody can be recognised, and nothing says that the person agreed."""

from checks.small_book import TECHNIQUE_FILE, SmallBook
from photographs import write_photograph

PICTURE = """\
pictures:
  - file: back.jpg
    alt: The back section.
    person: {person}
"""


def test_a_person_who_did_not_agree(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    book.add(TECHNIQUE_FILE, PICTURE.format(person="«picture-without-consent»yes"))
    book.shows(findings=1)


def test_a_person_who_said_no(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    book.add(TECHNIQUE_FILE, PICTURE.format(person="«picture-without-consent»yes") + "    consent: no\n")
    book.shows(findings=1)


def test_a_person_who_agreed(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    book.add(TECHNIQUE_FILE, PICTURE.format(person="yes") + "    consent: yes\n")
    book.shows(findings=0)


def test_whether_a_person_is_seen_has_to_be_said(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    book.add(TECHNIQUE_FILE, "pictures:\n  - {file: back.jpg, alt: The back section.}\n")
    assert [each.code for each in book.judged()] == ["missing-key"]
