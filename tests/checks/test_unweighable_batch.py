"""unweighable-batch: a size of the ladder that the scale cannot weigh closely enough.

The example is the design's own (figure 4): parts 3:1, 0.5 oz, steps of 0.05 oz, 20 % off; next 0.60 oz.
"""

import pytest

from checks.small_book import BLEND_FILE, HOUSE_FILE, SmallBook

LADDER = "batches: {oz: [1, 2], g: [20, 40]}"


def test_the_houses_ladder_is_reported_at_the_lighteners(book: SmallBook) -> None:
    book.edit(HOUSE_FILE, LADDER, "batches: {oz: [0.5, 1, 2]}")
    book.edit(
        BLEND_FILE,
        "lighteners:\n  - {product: clay",
        "lighteners:\n  «unweighable-batch?»- {product: clay",
    )
    (finding,) = book.shows(findings=1)
    assert finding.message == (
        "0.5 oz cannot be weighed in steps of 0.05 oz: 20.0 % off, and the house allows 5 %."
    )
    assert "nearest size this scale can weigh is 0.60 oz" in finding.mend


def test_a_blends_own_ladder_is_reported_at_the_rung(book: SmallBook) -> None:
    book.add(
        BLEND_FILE, "batches:\n  oz: [«unweighable-batch?»0.5, 0.6]\n  g: [4, «unweighable-batch?»6, 8]\n"
    )
    book.shows(findings=2)


def test_one_finding_for_each_batch(book: SmallBook) -> None:
    book.edit(HOUSE_FILE, LADDER, "batches: {oz: [0.3, 0.5, 0.6]}")
    findings = book.judged()
    assert [each.message.split(" cannot")[0] for each in findings] == ["0.3 oz", "0.5 oz"]


@pytest.mark.parametrize(("tolerance", "findings"), [("20 %", 0), ("19.99 %", 1)])
def test_at_the_tolerance_it_passes(book: SmallBook, tolerance: str, findings: int) -> None:
    book.edit(HOUSE_FILE, "tolerance: 5 %", f"tolerance: {tolerance}")
    mark = "«unweighable-batch?»" if findings else ""
    book.add(BLEND_FILE, f"batches: {{oz: [{mark}0.5, 1], g: [20]}}\n")
    book.shows(findings=findings)


def test_a_finer_scale_weighs_it(book: SmallBook) -> None:
    book.edit(HOUSE_FILE, LADDER, "batches: {oz: [0.5, 1, 2]}")
    book.edit(HOUSE_FILE, "oz: 0.05", "oz: 0.025")
    book.shows(findings=0)


def test_the_developer_counts_too(book: SmallBook) -> None:
    # 4 g as 3 and 1 are exact; 1:1.6 takes 6.4 g, read as 6: 6.25 % off.
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:1.6")
    book.add(BLEND_FILE, "batches: {oz: [1], g: [«unweighable-batch?»4, 20]}\n")
    book.shows(findings=1)
