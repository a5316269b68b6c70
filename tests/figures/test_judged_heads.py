"""The judged heads of ``heads.yml`` and ``odd_heads.yml``: complete, in the words of the design's table.

What ``bowlbook match`` answers to them is tested elsewhere; here only the file itself is.
"""

from pathlib import Path
from typing import Any

import pytest
from tests.yaml_file import yaml_file

HERE = Path(__file__).parent
FILES = ("heads.yml", "odd_heads.yml")
HEADS: list[dict[str, Any]] = [each for name in FILES for each in yaml_file(HERE / name)]
RECIPES = HERE.parents[1] / "recipes"

VERDICTS = {"go", "with care", "test first", "more than one visit", "not today", "tone only"}
HOLDS_BACK = VERDICTS - {"go", "with care", "tone only"}
OPTIONS: dict[str, set[str] | type] = {
    "level": int, "now": int, "weeks": int, "lift": int, "to": int, "volume": int, "heat": bool,
    "history": {"virgin", "previously coloured", "previously lightened", "permed", "relaxed", "smoothed",
                "henna", "metallic dye", "pool water"},
    "condition": {"sound", "dry", "stretchy", "breaking"},
    "grey": {"none", "some", "half", "all"},
    "wearing": {"extensions"},
    "person": {"under 16", "pregnant or nursing", "sore scalp", "reaction to colour", "reaction to lightener",
               "medicine or illness"},
    "texture": {"fine", "medium", "coarse"},
    "density": {"thin", "medium", "thick"},
    "porosity": {"low", "medium", "high"},
    "curl": {"straight", "wavy", "curly", "coily"},
    "area": {"scalp regrowth", "hairline", "lengths", "ends"},
    "placement": {"open-air", "foil", "on-scalp"},
    "tone": {"warm", "neutral", "cool"},
}  # fmt: skip
IDS = {path.stem for kind in ("blends", "techniques") for path in (RECIPES / kind).glob("*.yml")}


def verdicts_of(head: dict[str, Any]) -> set[str]:
    verdict = head["verdict"]
    return {verdict} if isinstance(verdict, str) else set(verdict)


def test_there_are_enough_and_half_of_them_hold_back() -> None:
    assert len(HEADS) >= 130
    assert len({each["name"] for each in HEADS}) == len(HEADS)
    held = [each for each in HEADS if verdicts_of(each) & HOLDS_BACK]
    assert len(held) * 2 >= len(HEADS)


@pytest.mark.parametrize("each", HEADS, ids=[each["name"] for each in HEADS])
def test_a_head_is_said_in_the_words_of_the_design(each: dict[str, Any]) -> None:
    assert set(each) <= {"name", "head", "verdict", "never", "must", "because", "undecided"}
    assert each["because"]
    assert verdicts_of(each) <= VERDICTS
    for option, value in each["head"].items():
        allowed = OPTIONS[option]
        if isinstance(allowed, type):
            assert type(value) is allowed, option
        else:
            assert set(value if isinstance(value, list) else [value]) <= allowed, option
    for never in each.get("never", []):
        known = never in {"lightening", "toning", "on-scalp", "open-air"} or never in IDS
        assert known or never.removeprefix("volume over ").isdigit(), never
    must = each.get("must", {})
    assert set(must) <= {"answers", "any_of", "before", "visits"}
    assert set(must.get("answers", [])) | set(must.get("any_of", [])) <= IDS
    assert not set(must.get("answers", [])) & set(each.get("never", []))
