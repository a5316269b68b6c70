"""picture-in-text: a picture within free text, which the site leaves out."""

import pytest

from checks.small_book import TECHNIQUE_FILE, SmallBook


@pytest.mark.parametrize("text", ["![the back](back.jpg)", "<img src=back.jpg>", "![back][1]", "![](a.png)"])
def test_a_picture_in_a_text(book: SmallBook, text: str) -> None:
    book.add(TECHNIQUE_FILE, f"notes: See {text}.\n")
    assert [each.code for each in book.judged()] == ["picture-in-text"]


@pytest.mark.parametrize("text", ["Stop! [See](https://a.example/b)", "Image of a head", "imgs"])
def test_a_text_without_one(book: SmallBook, text: str) -> None:
    book.add(TECHNIQUE_FILE, f"notes: '{text}.'\n")
    book.shows(findings=0)
