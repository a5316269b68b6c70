"""bowl-suits-nobody: a technique and its blend with no head in common."""

import pytest

from checks.small_book import TECHNIQUE_FILE, SmallBook


def test_textures_that_do_not_meet(book: SmallBook) -> None:
    book.edit(TECHNIQUE_FILE, "texture: [fine, medium]", "texture: [coarse]")
    book.edit(TECHNIQUE_FILE, "blend: soft-clay", "blend: «bowl-suits-nobody?»soft-clay")
    book.shows(findings=1)


@pytest.mark.parametrize("suits", ["natural_level: 1-6", "curl: [coily]"])
def test_one_level_in_common_or_a_facet_that_only_one_names(book: SmallBook, suits: str) -> None:
    book.shows((TECHNIQUE_FILE, "suits:\n  natural_level: 6-10", f"suits:\n  {suits}"), findings=0)
