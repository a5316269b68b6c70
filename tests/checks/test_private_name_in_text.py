"""private-name-in-text: a member of staff or a supplier in a text that goes to the public."""

import pytest

from checks.small_book import BLEND_FILE, CLASS_FILE, CLAY_FILE, SmallBook


@pytest.mark.parametrize("text", ["Ask Ines first.", "Ines's favourite", "As Ines, so everybody"])
def test_a_member_of_staff(book: SmallBook, text: str) -> None:
    book.add(BLEND_FILE, f'notes: «private-name-in-text?»"{text}"\n')
    book.shows(findings=1)


def test_a_supplier(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "priced_on: 2026-09-01}", "priced_on: 2026-09-01, supplier: North Wharf (invented)}")
    book.edit(
        CLASS_FILE, "what: Theory.", "what: «private-name-in-text?»Tubs of North Wharf (invented) stand by."
    )
    book.shows(findings=1)


@pytest.mark.parametrize("text", ["Shines well.", "ines in lower case", "Inesita is somebody else."])
def test_other_words_pass(book: SmallBook, text: str) -> None:
    book.add(BLEND_FILE, f"notes: {text}\n")
    book.shows(findings=0)


def test_what_is_private_may_say_it_and_short_names_are_words(book: SmallBook) -> None:
    book.add(BLEND_FILE, "private: Ask Ines.\nnotes: Al dente it is not.\n")
    book.edit(CLASS_FILE, "by: Ines", "by: Al")
    book.shows(findings=0)


def test_it_is_at_the_line_of_the_name(book: SmallBook) -> None:
    book.add(BLEND_FILE, "notes: |\n  Take two bowls.\n  Ask «private-name-in-text?»Ines before.\n")
    book.shows(findings=1)
