"""lift-over-product: more levels of lift than the strongest lightener gives."""

import pytest

from checks.small_book import BLEND_FILE, CLAY_FILE, POWDER_FILE, SmallBook


@pytest.mark.parametrize(
    ("clay", "powder", "lift", "findings"),
    [
        (3, 4, "  lift: 4\n", 0),
        (3, 1, "  lift: 1-3\n", 0),  # whichever is the strongest
        (1, 3, "  lift: 1-3\n", 0),
        (1, 2, "  lift: «lift-over-product?»1-3\n", 1),
        (1, 1, "", 0),  # nothing is promised
    ],
)
def test_the_strongest_lightener_counts(
    book: SmallBook, clay: int, powder: int, lift: str, findings: int
) -> None:
    book.add(BLEND_FILE, "cautions: [Watch it.]\n")
    book.edit(CLAY_FILE, "lifts: 5", f"lifts: {clay}")
    book.edit(POWDER_FILE, "lifts: 7", f"lifts: {powder}")
    book.shows((BLEND_FILE, "  lift: 1-3\n", lift), findings=findings)
