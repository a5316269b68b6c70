"""missing-picture: a picture that an entry names and the folder has not."""

import pytest

from checks.small_book import CLASS_FILE, CLAY_FILE, SITUATION_FILE, TECHNIQUE_FILE, SmallBook
from photographs import write_photograph

PICTURE = "pictures:\n  - {file: back.jpg, alt: The back section., person: no}\n"
FILM = """\
films:
  - file: «missing-picture»still.jpg
    alt: A foil folded.
    person: no
    title: Folding
    length: 2:30
    link: https://films.example/folding
"""


@pytest.mark.parametrize("file", [TECHNIQUE_FILE, SITUATION_FILE, CLASS_FILE, CLAY_FILE])
def test_a_picture_that_is_there(book: SmallBook, file: str) -> None:
    write_photograph(book.root, "back.jpg")
    book.add(file, PICTURE)
    book.shows(findings=0)


@pytest.mark.parametrize("file", [TECHNIQUE_FILE, SITUATION_FILE, CLASS_FILE, CLAY_FILE])
def test_one_that_is_not(book: SmallBook, file: str) -> None:
    book.add(file, PICTURE.replace("back.jpg", "«missing-picture»back.jpg"))
    book.shows(findings=1)


def test_a_film_without_its_still(book: SmallBook) -> None:
    book.add(TECHNIQUE_FILE, FILM)
    book.shows(findings=1)
