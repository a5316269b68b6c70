"""The list "Stop if …": the usual stops, and what only this house stops, before any figure is shown."""

import re

import pytest

from bowlbook.figures.verdict import practice_of
from bowlbook.pages.pick_page import pick_page, volumes_to_tap
from bowlbook.wording.stop_list import STOP_LIST, StopRow, stop_list_of
from checks.small_book import HOUSE_FILE, SmallBook

RULE = "rules:\n  - {{when: {{{}}}, {}, because: So., standing: this house}}\n"
VOLUMES = (10, 20, 30, 40, 45)


def added(small: SmallBook, when: str, effect: str = "stop: Not here.") -> tuple[StopRow, ...]:
    """What a house's rule puts into the list beside the usual ones."""
    small.add(HOUSE_FILE, RULE.format(when, effect))
    book = small.read()
    found = stop_list_of(practice_of(book).stops, VOLUMES)
    assert found[: len(STOP_LIST)] == STOP_LIST
    return found[len(STOP_LIST) :]


@pytest.mark.parametrize(
    ("when", "rows"),
    [
        ("history: [pool water]", [("history", "pool water", "pool water in it")]),
        (
            "history: [previously coloured], weeks: 0-3",
            [("history", "previously coloured", "coloured before")],
        ),
        ("condition: [dry]", [("condition", "dry", "hair is dry")]),
        ("grey: [half, all]", [("grey", "half", "half of it grey"), ("grey", "all", "all of it grey")]),
        ("porosity: [high]", [("porosity", "high", "high porosity")]),
        ("curl: [coily]", [("curl", "coily", "coily hair")]),
        ("area: [hairline]", [("area", "hairline", "the hairline")]),
        ("volume: 31-60", [("volume", "40", "over 30 volume is asked for")]),
        ("volume: 1-60", [("volume", "10", "any developer is asked for")]),
        ("history: [pool water], texture: [fine]", [("history", "pool water", "pool water in it")]),
        ("condition: [dry], volume: 21-60", [("condition", "dry", "hair is dry")]),
    ],
)
def test_what_only_this_house_stops_is_in_the_list(small: SmallBook, when: str, rows: list[StopRow]) -> None:
    assert added(small, when) == tuple(rows)


@pytest.mark.parametrize(
    ("when", "effect"),
    [
        ("person: [medicine or illness]", "stop: No."),  # in the usual list already
        ("natural_level: 1-2", "stop: No."),  # tapped as hair
        ("texture: [fine], curl: [coily]", "stop: No."),  # both tapped as hair
        ("condition: [dry]", "test_first: A strand."),  # no stop
        ("history: [pool water]", "care: Rinse."),
    ],
)
def test_what_is_listed_already_or_is_no_stop_adds_nothing(small: SmallBook, when: str, effect: str) -> None:
    assert added(small, when, effect) == ()


def test_the_page_asks_it_and_a_word_of_hair_is_the_tap_of_its_row(small: SmallBook) -> None:
    rule = "rules:\n" + "".join(
        f"  - {{when: {{{when}}}, stop: No., because: So., standing: this house}}\n"
        for when in ("grey: [all]", "volume: 11-60")
    )
    small.add(HOUSE_FILE, rule)
    book = small.read()
    body = pick_page("data.json", practice_of(book)).body
    chips = re.findall(r'data-of="(\w+)" value="([^"]+)" id="stop-', body)
    assert {("grey", "all"), ("volume", "20")} <= set(chips)
    for facet, value in chips:
        assert re.search(rf'type="\w+" name="{facet}" value="{value}"', body), (facet, value)


def test_volumes_are_those_of_the_house_and_one_beyond(demo_book) -> None:
    assert volumes_to_tap(practice_of(demo_book)) == (5, 10, 20, 30, 40, 45)
