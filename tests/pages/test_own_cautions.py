"""A blend's own cautions are next to its bowl on every page that somebody mixes or applies it from."""

from pathlib import Path

import pytest

from bowlbook.book.read_book import read_book
from bowlbook.pages.all_pages import makers_of
from bowlbook.pages.page import Page
from checks.small_book import BLEND_FILE, SITUATION_FILE, SmallBook

CAUTION = "Check every 5 minutes from the first stroke."


@pytest.mark.parametrize(
    ("address", "heading"),
    [
        ("techniques/painting/service/", "1. Soft clay"),
        ("techniques/painting/", 'id="bowls"'),
        (f"situations/{Path(SITUATION_FILE).stem}/", 'id="bowl"'),
    ],
)
def test_they_stand_with_the_bowl(tmp_path: Path, address: str, heading: str) -> None:
    small = SmallBook(tmp_path / "recipes")
    small.edit(BLEND_FILE, "reviewed:", f"cautions: [{CAUTION}]\nreviewed:")
    book = read_book(small.root).book
    assert book is not None and book.whole
    makers = [each for each in makers_of(book) if each.name.startswith(("technique/", "situation/"))]
    made = [page for each in makers for page in each.make(book) if isinstance(page, Page)]
    body = next(str(page.body) for page in made if page.address == address)
    assert body.index(heading) < body.index(CAUTION) < body.index('id="cautions"')
