"""The demo book's techniques say what must be known at the bench, and its toners serve what it lifts to.

Common practice, no published source; the longest times are those that the invented makers and house write.
"""

import re

import pytest

from bowlbook.figures.time_on_hair import time_on_hair
from bowlbook.figures.toner import toners_of
from bowlbook.figures.verdict import Practice, consult, toners_at, toning_answers
from figures.said import head_from

TONES = {"warm": 1, "neutral": 2, "cool": 4}


@pytest.mark.parametrize("level", [7, 8, 9, 10])
@pytest.mark.parametrize("tone", TONES)
def test_every_lifted_level_has_a_toner_for_every_tone(practice: Practice, level: int, tone: str) -> None:
    assert toners_at(practice, level, TONES[tone])


def test_a_toner_is_for_levels_that_its_maker_names(demo_book) -> None:
    for each in toners_of(demo_book):
        if each.kind == "blend":
            target = demo_book.blends[each.id].suits.target_level
            for share in demo_book.blends[each.id].toners:
                made_for = set(map(int, demo_book.products[share.product].levels))
                assert set(range(target.low, target.high + 1)) <= made_for, each.id


def test_each_toning_bowl_after_a_lift_has_its_time_and_its_signal(demo_book) -> None:
    toned = 0
    for technique in demo_book.techniques.values():
        bowls = [demo_book.blends[each.blend] for each in technique.bowls]
        if any(each.tones for each in bowls) and not all(each.tones for each in bowls):
            text = technique.rinse_and_tone or ""
            assert re.search(r"\b10 at most, off when|\b10 at most, off as soon", text), technique.id
            toned += 1
    assert toned >= 15


def test_each_technique_in_foil_says_what_to_do_with_a_hot_one(demo_book) -> None:
    foiled = [each for each in demo_book.techniques.values() if each.placement == "foil"]
    assert len(foiled) >= 10
    for technique in foiled:
        assert any("too hot for a flat hand: open it" in each for each in technique.cautions), technique.id


def test_each_technique_on_the_scalp_says_the_longest_time_on_skin(demo_book) -> None:
    words = {50: "50 minutes on the skin", 20: "twenty minutes on it"}
    found = [each for each in demo_book.techniques.values() if each.placement == "on-scalp"]
    assert len(found) >= 3
    for technique in found:
        limit = time_on_hair(demo_book, technique).limit
        assert limit is not None
        assert any(words[int(limit.minutes)] in each for each in technique.cautions), technique.id


@pytest.mark.parametrize(
    ("wish", "deepens"),
    [
        ({"now": 10, "to": 7}, True),
        ({"now": 10, "to": 7, "lift": 0}, True),
        ({"now": 10, "to": 10}, False),
        ({"now": 9, "to": 10}, False),
        ({"now": 10}, False),
    ],
)
def test_a_lowlight_answers_the_wish_for_depth_alone(
    practice: Practice, wish: dict[str, int], deepens: bool
) -> None:
    """Never after a lift, nor where only the tone is to change."""
    said = {"level": 6, **wish, "history": ["previously lightened"], "weeks": 9, "tone": "neutral"}
    found = consult(practice, head_from({**said, "area": "lengths"}))
    assert found.toning is not None
    answers = toning_answers(practice, found.toning)
    assert answers.answers("blend", "lowlight-gloss") is deepens
    assert answers.answers("technique", "lowlight-foils") is deepens
    if deepens:
        assert answers.suiting("blend", 1).verdicts[0].candidate.id == "lowlight-gloss"
    assert "lowlight-gloss" not in {each.id for each in toners_at(practice, 9, TONES["neutral"])}


def test_the_heads_that_a_salon_meets_have_a_page(demo_book) -> None:
    hair = [each.hair for each in demo_book.situations.values()]
    assert any("half" in each.grey for each in hair)
    assert any("relaxed" in each.history for each in hair)
    assert any({"previously lightened", "previously coloured"} <= set(each.history) for each in hair)
    tone_only = {
        each.natural_level for each in hair if each.target_level and each.target_level == each.natural_level
    }
    assert {level.low for level in tone_only if level} >= {7, 8, 9, 10}
    assert any(
        each.target_level.high < each.natural_level.low
        for each in hair
        if each.target_level and each.natural_level
    )
    assert any(((each.lift and each.lift.low) or 0) >= 6 for each in hair)
