"""Drawings of a placement: what is drawn is what the words say, counted and measured in it."""

import re
from fractions import Fraction
from itertools import pairwise, product
from xml.etree import ElementTree

import pytest

from bowlbook.entries.drawn import DIRECTIONS, SHOWN, WEAVES, Drawn
from bowlbook.pages.placement import placement_drawing, placement_drawings

SHARES = [Fraction(each) for each in (10, 25, 50, 75, 90)]
EVERY = [
    Drawn(shows="slice"),
    Drawn(shows="pocket of depth"),
    Drawn(shows="tipped ends"),
    *(Drawn(shows="weaves", at_back=back, at_front=front) for back, front in product(WEAVES, WEAVES)),
    *(Drawn(shows="brick-laid triangles", rows=rows) for rows in ((1,), (3, 4, 5, 4), (7, 7, 7, 7, 7, 7))),
    *(Drawn(shows="painted surface", points=points) for points in (1, 2, 3)),
    *(Drawn(shows="backcombing", backcomb=share) for share in SHARES),
    *(
        Drawn(shows="triangle in two foils", backcomb=one, backcomb_below=other)
        for one, other in product(SHARES, SHARES)
    ),
    *(Drawn(shows="over-direction", direction=each) for each in DIRECTIONS),
    *(Drawn(shows="folding", folds=n, direction=each) for n in (1, 2, 3) for each in DIRECTIONS),
]


def paths(drawn: Drawn, look: str) -> list[str]:
    """The outlines of one look in a drawing, in the order in which they are drawn."""
    root = ElementTree.fromstring(str(placement_drawing(drawn).svg))
    return [each.get("d") or "" for each in root.iter("path") if each.get("class") == f"bb-d-{look}"]


def test_everything_that_can_be_shown_is_tried() -> None:
    assert {each.shows for each in EVERY} == set(SHOWN)


def test_each_is_plain_svg_in_whole_numbers_and_says_its_words() -> None:
    """Inline styles are refused by the site's policy; ids would occur twice where a step is shown alone."""
    for each in EVERY:
        found = placement_drawing(each)
        root = ElementTree.fromstring(str(found.svg))
        assert root.get("aria-hidden") == "true" and found.words, "its caption is read, once"
        for element in root.iter():
            assert {"style", "id"}.isdisjoint(element.attrib)
            numbers = "".join(
                value for name, value in element.attrib.items() if name in ("d", "viewBox", "x")
            )
            assert "." not in numbers and "e" not in numbers


def test_different_words_give_different_drawings_and_sentences() -> None:
    for values in (
        {placement_drawing(each).words for each in EVERY},
        {str(placement_drawing(each).svg) for each in EVERY},
    ):
        assert len(values) == len(EVERY)


@pytest.mark.parametrize("points", [1, 2, 3])
def test_lightener_begins_in_as_many_points(points: int) -> None:
    (painted,) = paths(Drawn(shows="painted surface", points=points), "mix")
    ends = [int(y) for y in re.findall(r"C-?\d+ -?\d+ -?\d+ -?\d+ -?\d+ (-?\d+)", painted)]
    assert ends.count(min(ends)) == points


@pytest.mark.parametrize("rows", [(1,), (3, 4, 5, 4), (2, 2, 2), (7, 7, 7, 7, 7, 7)])
def test_triangles_are_as_many_as_said_and_laid_like_bricks(rows: tuple[int, ...]) -> None:
    (drawn,) = paths(Drawn(shows="brick-laid triangles", rows=rows), "section")
    found = re.findall(r"M(\d+) (\d+)L(\d+) (\d+)L(\d+) (\d+)Z", drawn)
    by_row: dict[int, list[tuple[int, ...]]] = {}
    for each in found:
        by_row.setdefault(int(each[1]), []).append(tuple(map(int, each)))
    assert [len(by_row[y]) for y in sorted(by_row, reverse=True)] == list(rows)
    for x, y, top, above, end, _ in (tuple(map(int, each)) for each in found):
        assert above < y and x < top < end, "points up"
    (base,) = {end - x for x, _, _, _, end, _ in (tuple(map(int, each)) for each in found)}
    starts = [by_row[y][0][0] for y in sorted(by_row, reverse=True)]
    assert all((other - one) % base == base // 2 for one, other in pairwise(starts))


@pytest.mark.parametrize("share", [25, 50, 75])
def test_what_hangs_is_what_is_not_combed_back(share: int) -> None:
    """The dashed outline is the whole section, 120 units wide at its root."""
    hanging = paths(Drawn(shows="backcombing", backcomb=Fraction(share)), "hair")[0]
    left, right = (int(x) for x in re.findall(r"[ML](\d+) \d+", hanging)[:2])
    assert abs((right - left) - 120 * (100 - share) / 100) <= 1


@pytest.mark.parametrize("folds", [1, 2, 3])
@pytest.mark.parametrize("direction", DIRECTIONS)
def test_a_foil_has_as_many_folds(folds: int, direction: str) -> None:
    dashed = paths(Drawn(shows="folding", folds=folds, direction=direction), "dashed")[0]
    lines = [tuple(map(int, each)) for each in re.findall(r"M(\d+) (\d+)L(\d+) (\d+)", dashed)]
    assert len(lines) == folds
    across = direction in ("up", "down")
    assert all((y == v) is across and (x == u) is not across for x, y, u, v in lines)


@pytest.mark.parametrize(
    ("direction", "axis", "sign"), [("forward", 0, -1), ("back", 0, 1), ("up", 1, -1), ("down", 1, 1)]
)
def test_hair_is_held_where_the_words_say(direction: str, axis: int, sign: int) -> None:
    """The face is at the left, the crown on top."""
    strand = paths(Drawn(shows="over-direction", direction=direction), "hair")[0]
    corners = [tuple(map(int, each)) for each in re.findall(r"(-?\d+) (-?\d+)", strand)]
    root, tip = corners[:2], corners[2:]
    assert sign * (sum(each[axis] for each in tip) - sum(each[axis] for each in root)) > 60


def test_weaves_get_wider_towards_the_front() -> None:
    rows = paths(Drawn(shows="weaves", at_back="fine", at_front="bold"), "hair")
    widths = [int(found[0]) for row in rows if (found := re.findall(r"h(\d+)V", row))]
    assert len(widths) == 3 and widths == sorted(set(widths))


def test_a_drawing_stands_beside_its_step() -> None:
    whole, of_step = placement_drawings([Drawn(shows="slice"), Drawn(shows="tipped ends", step=2)])
    assert [each.words.split(":")[0] for each in whole] == ["A slice"]
    assert list(of_step) == [2] and of_step[2][0].words.startswith("The ends tipped")
