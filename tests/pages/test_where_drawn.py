"""Where the demo book draws techniques: lists, situations, handouts and cards; and that each is read once."""

import re
from html import unescape
from pathlib import Path

from bowlbook.book.current import current
from bowlbook.pages.placement import emblem_of, named_drawings

FIGURE = re.compile(r"<figure class=\"bb-figure\">(.*?)</figure>", re.DOTALL)
SMALL = re.compile(
    r'<span class="bb-small"( role="img" aria-label="([^"]*)")?>\s*<svg[^>]* aria-hidden="true"'
)


def page(site: Path, address: str) -> str:
    """A page of the site, as text."""
    return unescape((site / address / "index.html").read_text(encoding="utf-8"))


def test_a_drawing_with_a_caption_is_read_once(demo_site: Path) -> None:
    seen = 0
    for path in demo_site.glob("*/*/**/index.html"):
        for figure in FIGURE.findall(path.read_text(encoding="utf-8")):
            if "<svg" in figure:
                seen += 1
                assert (
                    'aria-hidden="true"' in figure and "aria-label" not in figure and "<title" not in figure
                )
                assert re.search(r"<figcaption>\S", figure), path
    assert seen > 50


def test_a_list_of_techniques_has_one_small_drawing_a_row_and_names_it(demo_site: Path, demo_book) -> None:
    rows = page(demo_site, "techniques").split('<li class="bb-row"')[1:]
    techniques = {each.name: each for each in current(demo_book.techniques).values()}
    assert len(rows) == len(techniques)
    for row in rows:
        emblem = emblem_of(techniques[re.findall(r"<b>(.*?)</b>", row)[0]])
        assert emblem and [label for label, _ in SMALL.findall(row)] == [""] and f"</span>{emblem[1]}" in row


def test_situations_draw_the_technique_they_recommend(demo_site: Path, demo_book) -> None:
    for situation in current(demo_book.situations).values():
        named = [demo_book.techniques[each.technique] for each in situation.take if each.technique]
        said = [label for _, label in SMALL.findall(page(demo_site, f"situations/{situation.id}"))]
        assert said == [emblem[0].words for each in named if (emblem := emblem_of(each))]


def test_cards_show_each_technique_by_its_drawings(demo_site: Path, demo_book) -> None:
    for technique in current(demo_book.techniques).values():
        card = page(demo_site, f"techniques/{technique.id}/card")
        drawn = named_drawings(technique.drawings)
        assert [label for _, label in SMALL.findall(card)] == [drawing.words for _, drawing in drawn]
        assert re.findall(r"<figcaption>(.*?)</figcaption>", card) == [name for name, _ in drawn]


def test_handouts_show_what_was_demonstrated(demo_site: Path, demo_book) -> None:
    for notes in current(demo_book.classes).values():
        handout = page(demo_site, f"classes/{notes.id}/handout")
        drawn = [
            named_drawings(demo_book.techniques[each.technique].drawings) for each in notes.demonstrations
        ]
        words = [drawing.words for each in drawn for _, drawing in each]
        assert re.findall(r"<figcaption>(.*?)</figcaption>", handout) == words
