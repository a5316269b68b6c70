"""ratio-order: a product's usual ratio against its own range."""

import pytest

from checks.small_book import BLEND_FILE, CLAY_FILE, TECHNIQUE_FILE, SmallBook

RATIO = "{usual: 1:2, from: 1:1.5, to: 1:2.5}"
GLOSS = """\
name: Gloss
toners:
  - {product: pearl, parts: 1}
developer: {ratio: 1:2, product: developer-20}
suits: {tone: cool}
reviewed: {on: 2026-11-01, by: Ana}
"""
TONER = "name: Pearl\nkind: toner\nform: gel\ntone: cool\nmixing_ratio: "


@pytest.mark.parametrize(
    ("ratio", "blend"),
    [
        ("{usual: «ratio-order»1:2, from: 1:2.01}", "1:2.1"),
        ("{usual: «ratio-order»1:2, to: 1:1.99}", "1:1.9"),
    ],
)
def test_outside_its_own_range(book: SmallBook, ratio: str, blend: str) -> None:
    book.edit(CLAY_FILE, RATIO, ratio)
    book.edit(BLEND_FILE, "ratio: 1:2", f"ratio: {blend}")
    book.shows(findings=1)


def test_a_range_the_wrong_way_round_is_reported_once_and_not_at_every_blend(book: SmallBook) -> None:
    book.edit(CLAY_FILE, RATIO, "{from: 1:2.5, to: 1:1.5, usual: «ratio-order»1:2}")
    book.shows(findings=1)


@pytest.mark.parametrize(
    "ratio",
    ["{usual: 1:2}", "{usual: 1:2, from: 1:2, to: 1:2}", "{usual: 1:2, from: 2:3}", "{usual: 1:2, to: 1:2}"],
)
def test_at_its_ends_it_passes(book: SmallBook, ratio: str) -> None:
    book.edit(CLAY_FILE, RATIO, ratio)
    book.shows(findings=0)


GLOSS_BOWL = "{blend: gloss, where: At the basin., zones: [3], sections: 1, mix_per_section: 60 g}"


def test_a_toner_too(book: SmallBook) -> None:
    book.write("products/pearl.yml", TONER + "{usual: «ratio-order»1:3, from: 1:1, to: 1:2}\n")
    book.write("blends/gloss.yml", GLOSS)
    book.edit(TECHNIQUE_FILE, "bowls:\n", f"bowls:\n  - {GLOSS_BOWL}\n")
    book.shows(findings=1)
