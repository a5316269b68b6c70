"""missing-scale-step: batches without a scale to weigh them on, and ladders out of order."""

import pytest

from checks.small_book import BLEND_FILE, HOUSE_FILE, SmallBook

LADDER = "batches: {oz: [1, 2], g: [20, 40]}"
STEPS = "scale_step: {oz: 0.05, g: 1}"


@pytest.mark.parametrize(
    ("steps", "ladder", "example"),
    [
        ("{oz: 0.05}", "{oz: [1, 2], g: «missing-scale-step»[20, 40]}", "as g: 1."),
        ("{g: 1}", "{oz: «missing-scale-step»[1, 2], g: [20, 40]}", "as oz: 0.05."),
    ],
)
def test_a_unit_without_a_step(book: SmallBook, steps: str, ladder: str, example: str) -> None:
    book.edit(HOUSE_FILE, LADDER, f"batches: {ladder}")
    book.edit(HOUSE_FILE, STEPS, f"scale_step: {steps}")
    [found] = book.shows(findings=1)
    assert found.mend.endswith(example)


@pytest.mark.parametrize("rungs", ["[40, 20]", "[20, 20]", "[20, 40, 20]"])
def test_a_ladder_out_of_order(book: SmallBook, rungs: str) -> None:
    book.edit(HOUSE_FILE, LADDER, f"batches: {{oz: [1, 2], g: «missing-scale-step»{rungs}}}")
    book.shows(findings=1)


def test_a_ladder_without_any_batch(book: SmallBook) -> None:
    book.shows((HOUSE_FILE, LADDER, "batches: «empty-value»{g: []}"), findings=1)


def test_a_blends_own_ladder(book: SmallBook) -> None:
    book.add(BLEND_FILE, "batches:\n  oz: [1, 4]\n  g: «missing-scale-step»[40, 20]\n")
    book.shows(findings=1)


def test_a_unit_needs_a_step_where_a_blend_has_batches_in_it(book: SmallBook) -> None:
    book.edit(HOUSE_FILE, LADDER, "batches: {g: [20, 40]}")
    book.shows((HOUSE_FILE, STEPS, "scale_step: {g: 1}"), findings=0)
    book.add(BLEND_FILE, "batches: {oz: «missing-scale-step»[1, 2]}\n")
    book.shows(findings=1)
