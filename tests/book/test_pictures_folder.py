"""The folder of pictures: what its files are called, and what a file must be to be shown."""

from pathlib import Path

import pytest

from bowlbook.checks.judge import judge
from checks.small_book import DAY, TECHNIQUE_FILE, SmallBook
from photographs import photograph, write_photograph

PICTURE = """\
pictures:
  - file: back.jpg
    alt: The back section.
    person: no
"""


def test_a_number_that_no_step_has(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    book.add(TECHNIQUE_FILE, PICTURE + "    step: «out-of-bounds»9\n")
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
    book.add(TECHNIQUE_FILE, PICTURE)
    assert {each.code for each in book.judged()} == {"bad-picture", "missing-picture"}


@pytest.mark.long
def test_a_picture_with_too_many_pixels(book: SmallBook, tmp_path: Path) -> None:
    """A few kilobytes that would fill a gigabyte when unpacked."""
    from PIL import Image

    path = write_photograph(book.root, "back.png")
    Image.new("1", (20_000, 20_000)).save(path)
    assert path.stat().st_size < 200_000
    assert "bad-picture" in {each.code for each in judge(book.root, DAY).findings}
