"""bowl-suits-nobody: a technique and its blend with no head in common."""

from checks.small_book import TECHNIQUE_FILE, SmallBook

LEVELS = "suits:\n  natural_level: 6-10"


def test_levels_that_do_not_meet(book: SmallBook) -> None:
    book.edit(TECHNIQUE_FILE, LEVELS, "suits:\n  natural_level: 1-5")
    book.edit(TECHNIQUE_FILE, "blend: soft-clay", "blend: «bowl-suits-nobody?»soft-clay")
    book.shows(findings=1)


def test_textures_that_do_not_meet(book: SmallBook) -> None:
    book.edit(TECHNIQUE_FILE, "texture: [fine, medium]", "texture: [coarse]")
    book.edit(TECHNIQUE_FILE, "blend: soft-clay", "blend: «bowl-suits-nobody?»soft-clay")
    book.shows(findings=1)


def test_one_level_in_common_is_enough(book: SmallBook) -> None:
    book.edit(TECHNIQUE_FILE, LEVELS, "suits:\n  natural_level: 1-6")
    book.shows(findings=0)


def test_a_facet_that_only_one_names_keeps_nobody_out(book: SmallBook) -> None:
    book.edit(TECHNIQUE_FILE, LEVELS, "suits:\n  curl: [coily]")
    book.shows(findings=0)
