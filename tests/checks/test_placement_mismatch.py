"""placement-mismatch: a technique that places a blend where it is not meant to go."""

import pytest

from checks.small_book import BLEND_FILE, CLAY_FILE, TECHNIQUE_FILE, SmallBook


@pytest.mark.parametrize("placement", ["  placement: [open-air, foil]\n", ""])
def test_one_placement_of_two_is_enough_and_without_any_it_goes_anywhere(
    book: SmallBook, placement: str
) -> None:
    book.edit(CLAY_FILE, "placement: [open-air]", "placement: [open-air, foil]")
    book.edit(BLEND_FILE, "  placement: [open-air]\n", placement)
    book.shows((TECHNIQUE_FILE, "placement: open-air", "placement: foil"), findings=0)
