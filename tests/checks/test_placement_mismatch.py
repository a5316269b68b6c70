"""placement-mismatch: a technique that places a blend where it is not meant to go."""

from checks.small_book import BLEND_FILE, CLAY_FILE, TECHNIQUE_FILE, SmallBook


def test_an_open_air_blend_in_a_foil(book: SmallBook) -> None:
    book.edit(TECHNIQUE_FILE, "placement: open-air", "placement: foil")
    book.edit(TECHNIQUE_FILE, "blend: soft-clay", "blend: «placement-mismatch»soft-clay")
    book.shows(findings=1)


def test_one_placement_of_two_is_enough(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "placement: [open-air]", "placement: [open-air, foil]")
    book.edit(BLEND_FILE, "placement: [open-air]", "placement: [open-air, foil]")
    book.edit(TECHNIQUE_FILE, "placement: open-air", "placement: foil")
    book.shows(findings=0)


def test_a_blend_without_a_placement_goes_anywhere(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "  placement: [open-air]\n", "")
    book.edit(TECHNIQUE_FILE, "placement: open-air", "placement: foil")
    book.shows(findings=0)
