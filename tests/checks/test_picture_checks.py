"""missing-picture, picture-without-consent, unused-picture, picture-in-text, and what a picture's file is."""

from pathlib import Path

import pytest

from bowlbook.checks.judge import judge
from checks.small_book import CLASS_FILE, CLAY_FILE, DAY, SITUATION_FILE, TECHNIQUE_FILE, SmallBook
from photographs import photograph, write_photograph

PICTURES = """\
pictures:
  - file: {mark}back.jpg
    alt: The back section, parted in four.
    person: {person}
"""


def with_picture(book: SmallBook, file: str = TECHNIQUE_FILE, mark: str = "", person: str = "no") -> None:
    book.add(file, PICTURES.format(mark=mark, person=person))


@pytest.mark.parametrize("file", [TECHNIQUE_FILE, SITUATION_FILE, CLASS_FILE, CLAY_FILE])
def test_a_picture_that_is_there(book: SmallBook, file: str) -> None:
    write_photograph(book.root, "back.jpg")
    with_picture(book, file)
    book.shows(findings=0)


def test_one_that_is_not(book: SmallBook) -> None:
    with_picture(book, mark="«missing-picture»")
    book.shows(findings=1)


def test_a_film_without_its_still(book: SmallBook) -> None:
    book.add(
        TECHNIQUE_FILE,
        "films:\n  - {file: «missing-picture»still.jpg, alt: A foil folded., person: no, title: Folding,"
        " link: 'https://films.example/folding', length: 2:30}\n",
    )
    book.shows(findings=1)


def test_a_person_who_did_not_agree(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    book.add(TECHNIQUE_FILE, PICTURES.format(mark="", person="«picture-without-consent»yes"))
    book.shows(findings=1)


def test_a_person_who_agreed(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    book.add(TECHNIQUE_FILE, PICTURES.format(mark="", person="yes") + "    consent: yes\n")
    book.shows(findings=0)


def test_whether_a_person_is_seen_has_to_be_said(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    book.add(TECHNIQUE_FILE, "pictures:\n  - {file: back.jpg, alt: The back section.}\n")
    assert [each.code for each in book.judged()] == ["missing-key"]


def test_one_that_nothing_shows(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    (found,) = book.judged()
    assert (found.code, found.severity) == ("unused-picture", "warning")
    assert found.place.path.endswith("pictures/back.jpg")


@pytest.mark.parametrize("text", ["See ![the back](back.jpg).", "See <img src=back.jpg>.", "See ![back][1]."])
def test_a_picture_in_a_text(book: SmallBook, text: str) -> None:
    book.add(TECHNIQUE_FILE, f"notes: {text}\n")
    assert [each.code for each in book.judged()] == ["picture-in-text"]


def test_a_number_that_no_step_has(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    book.add(TECHNIQUE_FILE, PICTURES.format(mark="", person="no") + "    step: «out-of-bounds»9\n")
    book.shows(findings=1)


NAMES = {
    "IMG_2043.JPG": "Rename it to img-2043.jpg.",
    "back.heic": "Save it as .jpg.",
    "back view.png": "Rename it to back-view.png.",
}


@pytest.mark.parametrize("name", NAMES)
def test_a_name_that_is_none_says_which_would_be(book: SmallBook, name: str) -> None:
    write_photograph(book.root, name)
    (found,) = book.judged()
    assert (found.code, found.mend) == ("bad-file-name", NAMES[name])


BROKEN = {
    "cut short": lambda: photograph()[:20_000],
    "a text": lambda: b"not a picture",
    "nothing": lambda: b"",
    "a page": lambda: b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>",
}


@pytest.mark.parametrize("what", BROKEN)
def test_a_file_that_is_no_picture(book: SmallBook, what: str) -> None:
    write_photograph(book.root, "back.jpg").write_bytes(BROKEN[what]())
    with_picture(book)
    assert {each.code for each in book.judged()} == {"bad-picture", "missing-picture"}


def test_a_picture_with_too_many_pixels(book: SmallBook, tmp_path: Path) -> None:
    """A few kilobytes that would fill a gigabyte when unpacked."""
    from PIL import Image

    path = write_photograph(book.root, "back.png")
    Image.new("1", (20_000, 20_000)).save(path)
    assert path.stat().st_size < 200_000
    assert "bad-picture" in {each.code for each in judge(book.root, DAY).findings}
