"""ratio-out-of-range: a blend's ratio against the range of each of its lighteners.

The clay allows 1:1.5 to 1:2.5, the powder 1:1 to 1:3.
"""

import pytest

from checks.small_book import BLEND_FILE, CLAY_FILE, SmallBook

RANGE = "mixing_ratio: {usual: 1:2, from: 1:1.5, to: 1:2.5}"


@pytest.mark.parametrize("ratio", ["1:3", "1:2.51", "1:1.49", "1:1"])
def test_outside_the_range_of_one(book: SmallBook, ratio: str) -> None:
    book.edit(BLEND_FILE, "ratio: 1:2", f"ratio: «ratio-out-of-range»{ratio}")
    book.shows(findings=1)


@pytest.mark.parametrize("ratio", ["1:1.5", "1:2.5", "2:5"])
def test_at_the_ends_it_passes(book: SmallBook, ratio: str) -> None:
    book.edit(BLEND_FILE, "ratio: 1:2", f"ratio: {ratio}")
    book.shows(findings=0)


def test_outside_the_range_of_two_it_says_both(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:4")
    findings = book.judged()
    assert [each.code for each in findings] == ["ratio-out-of-range"] * 2
    assert [each.message for each in findings] == [
        "1:4 is outside the range of Plain clay (from 1:1.5 to 1:2.5).",
        "1:4 is outside the range of Violet powder (from 1:1 to 1:3).",
    ]


@pytest.mark.parametrize(
    ("allowed", "ratio", "findings"),
    [
        (", from: 1:2", "1:3", 0),
        (", from: 1:2", "«ratio-out-of-range»1:1.9", 1),
        (", to: 1:2", "1:1", 0),
        (", to: 1:2", "«ratio-out-of-range»1:2.1", 1),
        ("", "1:1", 0),
    ],
)
def test_a_range_with_one_end_or_none(book: SmallBook, allowed: str, ratio: str, findings: int) -> None:
    book.edit(CLAY_FILE, RANGE, f"mixing_ratio: {{usual: 1:2{allowed}}}")
    book.shows((BLEND_FILE, "ratio: 1:2", f"ratio: {ratio}"), findings=findings)
