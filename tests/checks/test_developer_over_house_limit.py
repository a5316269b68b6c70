"""developer-over-house-limit: strong developer on a scalp.

20 volume or less on the scalp is common practice, no published source; the limit is the house's own.
"""

import pytest

from checks.small_book import (
    BLEND_FILE,
    CLAY_FILE,
    DEVELOPER,
    DEVELOPER_FILE,
    HOUSE_FILE,
    POWDER_FILE,
    TECHNIQUE_FILE,
    SmallBook,
)

STRONG = DEVELOPER.replace("20\n", "21\n").replace("peroxide: 6 %\n", "")
CAUTION = "cautions: [Check every five minutes.]\n"


STANDS_IN = (BLEND_FILE, "developer-20}", "developer-20, also: [developer-21]}")


@pytest.fixture
def strong(book: SmallBook) -> SmallBook:
    """The small book with a developer over the house's limit for the scalp."""
    book.write("products/developer-21.yml", STRONG)
    return book


@pytest.fixture
def scalp(strong: SmallBook) -> SmallBook:
    """Its blend and technique on the scalp, and the strong developer to stand in."""
    book = strong
    book.edit(*STANDS_IN)
    book.edit(CLAY_FILE, "[open-air]", "[on-scalp]")
    book.edit(POWDER_FILE, "[open-air, foil]", "[on-scalp]")
    book.edit(BLEND_FILE, "[open-air]", "[on-scalp]")
    book.edit(TECHNIQUE_FILE, "placement: open-air", "placement: on-scalp")
    book.add(BLEND_FILE, CAUTION)
    book.add(TECHNIQUE_FILE, CAUTION)
    return book


def test_over_the_limit_in_a_blend_and_in_the_technique_that_mixes_it(scalp: SmallBook) -> None:
    scalp.edit(BLEND_FILE, "developer-20, also: [developer-21]}", "«developer-over-house-limit»developer-21}")
    scalp.edit(TECHNIQUE_FILE, "- blend: soft-clay", "- «developer-over-house-limit»blend: soft-clay")
    scalp.edit(DEVELOPER_FILE, "name: ", "name: «unused-entry?»")
    scalp.shows(findings=3)


def test_one_that_may_stand_in_counts_too(scalp: SmallBook) -> None:
    scalp.shows((BLEND_FILE, "also: [", "also: [«developer-over-house-limit»"), findings=1)


def test_a_technique_that_asks_for_it(scalp: SmallBook) -> None:
    scalp.edit(BLEND_FILE, "  placement: [on-scalp]\n", "  curl: [straight]\n")  # the blend goes anywhere
    scalp.edit(
        TECHNIQUE_FILE,
        "blend: soft-clay",
        "blend: soft-clay\n    developer: «developer-over-house-limit»developer-21",
    )
    scalp.shows(findings=1)


def test_another_limit_of_the_house(scalp: SmallBook) -> None:
    scalp.shows((HOUSE_FILE, "20 volume", "21 volume"), findings=0)


def test_off_the_scalp_it_does_not_matter(strong: SmallBook) -> None:
    strong.shows(STANDS_IN, findings=0)
