"""A wish for a volume that breaks the house's limit on peroxide in every bowl is a stop.

The limits are invented but for one: 12 % in the mixture as applied, Regulation (EC) No 1223/2009, Annex III,
entry 12, as replaced by Regulation (EU) 2019/831. 10 volume are nominally 3 %: the trade's map.
"""

import pytest

from bowlbook.book.book import Book
from bowlbook.figures.answer import questions_of
from bowlbook.figures.candidate import lightening
from bowlbook.figures.head import VOLUME, VOLUMES, values_of
from bowlbook.figures.proportion import developer_share
from bowlbook.figures.stop import Stop, volume_stops
from bowlbook.figures.verdict import consult, practice_of
from bowlbook.wording.verdict import before_of
from checks.small_book import HOUSE_FILE, SmallBook
from figures.said import head_from

LIMIT = "limits: [{{jurisdiction: Somewhere, peroxide: {} %, since: 2020-02-03, source: An invented law}}]\n"
HEAD = {
    "level": 7,
    "lift": 2,
    "texture": "fine",
    "history": "virgin",
    "condition": "sound",
    "area": "lengths",
}


def stops(book: Book) -> tuple[Stop, ...]:
    return volume_stops(book.house, [developer_share(each) for each in lightening(book)])


def stopped(small: SmallBook) -> tuple[int | str, ...]:
    """The volumes that are over a limit in every bowl: the small book's is one part to two of developer."""
    return tuple(volume for stop in stops(small.read()) for volume in values_of("volume", stop.when[VOLUME]))


@pytest.mark.parametrize(("percent", "first"), [(4, 25), (6, 35), (8, 45), (2, 15)])
def test_the_bowl_counts_and_not_the_developer(small: SmallBook, percent: int, first: int) -> None:
    """Two thirds of the bowl are developer: 20 volume make 4 %, 30 make 6 %, 40 make 8 %, 10 make 2 %."""
    small.add(HOUSE_FILE, LIMIT.format(percent))
    assert stopped(small) == tuple(volume for volume in VOLUMES if volume >= first)


def test_twelve_percent_stop_no_volume_that_the_usual_stops_allow(demo_book) -> None:
    assert demo_book.house.limits[0].peroxide == 12
    assert stops(demo_book) == ()


def test_the_stop_names_where_it_holds_and_its_text(small: SmallBook) -> None:
    small.add(HOUSE_FILE, LIMIT.format(6))
    assert consult(practice_of(small.read()), head_from({**HEAD, "volume": 30})).verdict != "not today"
    found = consult(practice_of(small.read()), head_from({**HEAD, "volume": 40}))
    assert found.verdict == "not today" and found.lightening is None
    (row,) = [each for each in before_of(found) if each.do.startswith("Over 30 volume")]
    assert "6 % peroxide" in row.because
    assert row.standing == "published, Somewhere, since 2020-02-03: An invented law"


def test_a_volume_is_asked_for_where_one_of_the_house_s_would_change_the_verdict(small: SmallBook) -> None:
    """The small house has 20 volume alone: asked at the hairline, which takes 10, and not of lengths."""
    known = {**HEAD, "curl": "straight", "porosity": "low", "density": "thin", "tone": "cool", "grey": "none"}
    at = practice_of(small.read())
    for area, asked in (("lengths", False), ("hairline", True)):
        head = head_from({**known, "area": area, "person": []})
        questions = questions_of(at, head, consult(at, head), most=99)
        found = [each for each in questions if each.facet == "volume"]
        assert bool(found) is asked
        assert [each.stops for each in found] == [(20,)] * asked
