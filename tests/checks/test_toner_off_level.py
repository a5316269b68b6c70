"""toner-off-level: a toner on a level that it is not made for.

Underlying pigment by level (7 yellow-orange: blue-violet; 9 pale yellow: violet): common practice, no
published source.
"""

import pytest

from checks.small_book import SITUATION_FILE, TECHNIQUE_FILE, SmallBook

TONER_FILE, GLOSS_FILE = "products/smoke.yml", "blends/smoke-bowl.yml"
TONER = """\
name: Smoke toner
kind: toner
form: liquid
tone: [cool]
levels: [7, 8]
pigment: blue-violet
mixing_ratio: {usual: 1:2}
"""
GLOSS = """\
name: Smoke bowl
toners:
  - {product: smoke, parts: 1}
developer: {ratio: 1:2, product: developer-20}
suits: {target_level: 7-8}
reviewed: {on: 2026-10-02, by: Ines}
"""
BOWL = """\
  - blend: smoke-bowl
    where: At the basin.
    zones: [2, 3]
    sections: 1
    mix_per_section: 40 g
    minutes_per_section: 5 minutes
steps:"""


@pytest.fixture
def toned(book: SmallBook) -> SmallBook:
    """The small book with a toner for level 7 to 8, its bowl in the technique, and hair of level 7."""
    book.write(TONER_FILE, TONER)
    book.write(GLOSS_FILE, GLOSS)
    book.edit(TECHNIQUE_FILE, "steps:", BOWL)
    book.edit(SITUATION_FILE, "natural_level: 7,", "natural_level: 6,")
    book.shows(findings=0)  # lifted by 2 to level 8
    return book


def test_a_situation_lifted_past_its_toner(toned: SmallBook) -> None:
    toned.edit(SITUATION_FILE, "lift: 2", "lift: 3")
    toned.edit(SITUATION_FILE, "technique: painting", "technique: «toner-off-level»painting")
    (finding,) = toned.shows(findings=1)
    assert "level 9 shows pale yellow, which violet neutralises" in finding.message


@pytest.mark.parametrize("hair", ["lift: 2-3", "target_level: 6-7"])
def test_a_situation_that_is_off_in_part_is_a_warning(toned: SmallBook, hair: str) -> None:
    toned.edit(SITUATION_FILE, "natural_level: 6,", "natural_level: 5-6,")
    toned.edit(SITUATION_FILE, "lift: 2", hair)
    toned.edit(SITUATION_FILE, "technique: painting", "technique: «toner-off-level?»painting")
    if hair.startswith("lift"):
        toned.edit(SITUATION_FILE, "natural_level: 5-6,", "natural_level: 6,")
    toned.shows(findings=1)


@pytest.mark.parametrize(
    "hair",
    [
        "natural_level: 6-7, lift: 1-2, target_level: 7-8",  # the target level narrows what the others allow
        "natural_level: 9",  # no lift is said, and so no level that it reaches
        "lift: 3",
        "target_level: 7",
    ],
)
def test_what_stays_within_or_says_no_level(toned: SmallBook, hair: str) -> None:
    toned.edit(SITUATION_FILE, "natural_level: 6, texture: [fine], lift: 2", hair)
    toned.shows(findings=0)


def test_a_plan_over_visits_is_toned_at_the_end_of_the_first(toned: SmallBook) -> None:
    """Six levels are more than the usual five of one visit: four today, from 4 to 8, and two later."""
    toned.edit(
        SITUATION_FILE,
        "natural_level: 6, texture: [fine], lift: 2",
        "natural_level: 4, texture: [medium], lift: 6",
    )
    toned.shows(findings=0)
    toned.edit(SITUATION_FILE, "natural_level: 4,", "natural_level: 2,")
    toned.edit(SITUATION_FILE, "technique: painting", "technique: «toner-off-level»painting")
    toned.shows(findings=1)


@pytest.mark.parametrize(("lift", "mark"), [("3", "«toner-off-level»"), ("2-3", "")])
def test_a_technique_that_never_reaches_its_toner(toned: SmallBook, lift: str, mark: str) -> None:
    toned.edit(TECHNIQUE_FILE, "suits:\n", f"suits:\n  lift: {lift}\n")
    toned.shows((TECHNIQUE_FILE, "blend: smoke-bowl", f"blend: {mark}smoke-bowl"), findings=1 if mark else 0)


def test_a_bowl_for_a_level_that_its_toner_is_not_made_for(toned: SmallBook) -> None:
    toned.edit(GLOSS_FILE, "target_level: 7-8", "target_level: «toner-off-level»7-9")
    toned.shows(findings=1)


@pytest.mark.parametrize(
    ("levels", "pigment", "findings"),
    [
        ("[7, «toner-off-level»10]", "blue-violet", 1),
        ("[«toner-off-level»6, 8]", "violet", 1),  # orange
        ("[«toner-off-level»9]", "blue", 1),
        # A level either way passes: schools differ in names and by a level.
        ("[8, 9, 10]", "violet", 0),
        ("[6, 7, 8]", "blue-violet", 0),
        ("[5, 6, 7]", "blue", 0),
    ],
)
def test_a_pigment_that_does_not_neutralise_the_level(
    toned: SmallBook, levels: str, pigment: str, findings: int
) -> None:
    toned.edit(GLOSS_FILE, "suits: {target_level: 7-8}", "suits: {tone: [cool]}")
    toned.edit(SITUATION_FILE, "technique: painting, ", "")
    toned.edit(TONER_FILE, "levels: [7, 8]", f"levels: {levels}")
    toned.shows((TONER_FILE, "pigment: blue-violet", f"pigment: {pigment}"), findings=findings)


def test_a_toner_that_gives_warmth_back_has_no_pigment_to_check(toned: SmallBook) -> None:
    toned.edit(TONER_FILE, "pigment: blue-violet\n", "")
    toned.edit(TONER_FILE, "levels: [7, 8]", "levels: [1, 7, 8]")
    toned.shows(findings=0)
