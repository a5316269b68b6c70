"""The head with its sections: a slice goes on, a weave leaves hair out, as fine as the technique says."""

import re
from xml.etree import ElementTree

from bowlbook.entries.drawn import Drawn
from bowlbook.entries.technique import REGIONS, SECTIONINGS, Sectioning
from bowlbook.pages import head_outline
from bowlbook.pages.head import ONLY_SEEN, head_drawing


def drawn(sections: list[Sectioning], drawings: tuple[Drawn, ...] = ()) -> tuple[ElementTree.Element, str]:
    """The drawing as elements, and its words."""
    found = head_drawing(sections, drawings, "head")
    assert found
    return ElementTree.fromstring(str(found.svg)), found.words


def patterns(root: ElementTree.Element) -> dict[str, tuple[int, str]]:
    """By where it is referred to: the width of what is repeated, and its outline."""
    return {
        f"url(#{each.get('id')})": (int(each.get("width") or 0), each[0].get("d") or "")
        for each in root.iter("pattern")
    }


def from_the_side(root: ElementTree.Element) -> dict[str, str | None]:
    """By region: the fill of its outline in the view from the side."""
    fills = {
        each.get("d"): each.get("fill") for each in next(root.iter("svg")).iter("path") if each.get("fill")
    }
    return {region: fills.get(path) for region, (path, _) in head_outline.REGIONS["side"].items()}


def test_every_region_is_drawn_from_the_side() -> None:
    assert set(head_outline.REGIONS["side"]) == set(REGIONS)
    assert all(regions <= set(head_outline.REGIONS[view]) for view, regions in ONLY_SEEN.items())


def test_a_slice_goes_on_and_a_weave_leaves_hair_out() -> None:
    for taken_in, goes_on in (("slices", True), ("weaves", False)):
        ((wide, outline),) = set(patterns(drawn([Sectioning(on=("sides",), taken_in=taken_in)])[0]).values())
        left, reach = re.match(r"M(-?\d+)[ -]\d+h(\d+)", outline).groups()  # type: ignore[union-attr]
        assert (int(left) < 0 and int(left) + int(reach) > wide) is goes_on


def test_weaves_on_the_head_are_as_fine_as_the_technique_says() -> None:
    every = [Sectioning(on=REGIONS, taken_in="weaves")]
    root, words = drawn(every, (Drawn(shows="weaves", at_back="fine", at_front="bold"),))
    found, fills = patterns(root), from_the_side(root)
    widths = {region: found[fill][0] for region, fill in fills.items() if fill}
    assert (
        widths["nape"]
        == widths["back"]
        < widths["crown"]
        == widths["sides"]
        < widths["top"]
        == widths["hairline"]
    )
    assert words.endswith("weaves, fine at the back and bold at the front. Outlined: what is taken.")
    root, words = drawn(every, (Drawn(shows="weaves", at_back="fine", at_front="fine"),))
    assert {wide for wide, _ in patterns(root).values()} == {widths["nape"]} and "fine weaves." in words


def test_each_way_to_section_looks_another_and_several_have_a_key() -> None:
    sections = [
        Sectioning(on=(region,), taken_in=each) for region, each in zip(REGIONS, SECTIONINGS, strict=True)
    ]
    root, words = drawn(sections)
    fills = from_the_side(root)
    assert len({patterns(root)[fill or ""] for fill in fills.values()}) == len(SECTIONINGS)
    key = [each.text for each in root.findall("text")]
    assert key == list(SECTIONINGS)
    assert all(f"{each.on[0].capitalize()}: {each.taken_in}" in words for each in sections)
    assert not drawn(sections[:1])[0].findall("text"), "one way is said by the caption"


def test_a_view_is_drawn_where_something_is_seen_from_there() -> None:
    def views(*on: str) -> list[str | None]:
        root = drawn([Sectioning(on=on, taken_in="slices")])[0]
        return [each.text for each in root.iter("text") if each.get("class") == "bb-mid"]

    assert views("sides") == ["side"]
    assert views("hairline") == ["side", "front"]
    assert views("nape") == ["side", "back"]
    assert views("fringe", "back") == ["side", "front", "back"]
