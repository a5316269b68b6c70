"""Pages by hair: the verdict first, each recipe once and best first, toners where a level is a result."""

import re
from collections import Counter

import pytest

from bowlbook.book.book import Book
from bowlbook.figures.head import head_of, head_with
from bowlbook.figures.verdict import VERDICTS, Practice, practice_of
from bowlbook.pages.answers import OPEN, AnswerGroup, AnswerItem, asked_of, each_caution_once
from bowlbook.pages.facet_page import facet_page, situation_index
from bowlbook.pages.facet_value import FACET_VALUES, FacetValue
from bowlbook.pages.page import Page
from bowlbook.pages.verdict_sign import SIGNS


@pytest.fixture(scope="module")
def practice(demo_book) -> Practice:
    return practice_of(demo_book)


def value_of(facet: str, title: str) -> FacetValue:
    (found,) = [each for each in FACET_VALUES if (each.facet, each.title) == (facet, title)]
    return found


def page_of(demo_book: Book, practice: Practice, facet: str, title: str) -> Page:
    return facet_page(demo_book, practice, situation_index(demo_book), value_of(facet, title))


@pytest.mark.parametrize("value", FACET_VALUES, ids=[each.address for each in FACET_VALUES])
def test_each_recipe_is_listed_once(demo_book, practice: Practice, value: FacetValue) -> None:
    """A blend with its best technique or alone; a technique named beside a blend is not listed again."""
    asked = asked_of(demo_book, practice, head_with(**{value.facet: value.bits}), value.address)
    listed = [each for group in asked.groups for each in group.suits]
    assert max(Counter(each.href for each in listed).values(), default=1) == 1
    beside = {each.name.partition(", placed with ")[2] for each in listed}
    assert not beside & {
        each.name for group in asked.groups for each in group.suits if group.anchor != "pairs"
    }
    assert all(each.mixed for each in listed)


@pytest.mark.parametrize(
    ("facet", "title"),
    [("texture", "Coarse hair"), ("condition", "Sound hair"), ("target_level", "Target level 7")],
)
def test_what_is_refused_has_a_reason(demo_book, practice: Practice, facet: str, title: str) -> None:
    """A recipe that says nothing of this hair is neither an answer nor refused."""
    value = value_of(facet, title)
    asked = asked_of(demo_book, practice, head_with(**{value.facet: value.bits}), value.address)
    assert [each.name for group in asked.groups for each in group.refused if not each.sentences] == []
    if title == "Sound hair":
        body = page_of(demo_book, practice, facet, title).body
        assert "none refuses it" in body and "Nothing in this book suits" not in body


def test_a_caution_stands_in_full_once(demo_book, practice: Practice) -> None:
    """Further answers name what it is about. What is true of all answers is said once."""
    body = page_of(demo_book, practice, "texture", "Coarse hair").body
    hot = "A foil that is too hot for a flat hand: "
    assert body.count(f"{hot}open it") == 1 and body.count(f"{hot}as above.") >= 2
    assert body.index(f"{hot}open it") < body.index(f"{hot}as above.")
    assert body.count("Meant for coarse hair.") == 1


def test_what_is_shortened_stands_in_full_in_an_open_answer() -> None:
    def answer(*cautions: str) -> AnswerItem:
        return AnswerItem("", "", "", cautions, (), (), None)

    warm, dry = "Warm foils keep lifting. Mist at once.", "Never brush it out dry."
    groups = [
        AnswerGroup("", "", (), [answer() for _ in range(OPEN)] + [answer(warm)], [], 0),
        AnswerGroup("", "", (), [answer(warm, dry), answer(warm, dry)], [], 0),
    ]
    each_caution_once(groups)
    assert groups[0].folded[0].cautions == (warm,)
    assert groups[1].open[0].cautions == (warm, dry)
    assert groups[1].open[1].cautions == ("Warm foils keep lifting: as above.", dry)


@pytest.mark.parametrize("title", ["Breaking hair", "Stretchy hair", "Hair with metallic dye"])
def test_a_page_of_stopped_hair_has_the_stop_and_no_recipe(demo_book, practice: Practice, title: str) -> None:
    facet = "history" if "dye" in title else "condition"
    body = page_of(demo_book, practice, facet, title).body
    assert 'data-verdict="not today"' in body
    assert "bb-answers" not in body and "With Developer" not in body


def test_a_page_of_relaxed_hair_says_how_long_to_wait(demo_book, practice: Practice) -> None:
    """Nobody is in the chair: what the weeks decide is said, and not assumed."""
    body = page_of(demo_book, practice, "history", "Relaxed hair").body
    assert 'data-verdict="test first"' in body and "Relaxed less than eight weeks ago" in body


def test_a_verdict_has_its_sign_beside_the_word(demo_book, practice: Practice) -> None:
    """The same as on the phone: nothing by colour alone."""
    body = page_of(demo_book, practice, "condition", "Breaking hair").body
    sign = f'data-sign="not today"><path d="{SIGNS["not today"]}"/></svg>'
    assert f"{sign}<strong>Not today.</strong>" in body
    assert set(SIGNS) == set(VERDICTS)


def test_toners_are_listed_where_a_level_is_a_result(demo_book, practice: Practice) -> None:
    body = page_of(demo_book, practice, "target_level", "Target level 9").body
    assert '<h2 id="toners">' in body and "Pearl gloss" in body.partition('<h2 id="toners">')[2]
    assert "A wish: hair that is to be lifted to this level" in body
    natural = page_of(demo_book, practice, "natural_level", "Natural level 9").body
    assert "by nature" in natural


def test_a_situation_shows_its_plan_over_visits(demo_book, practice: Practice) -> None:
    hair = demo_book.situations["coarse-level-3-to-9"].hair
    asked = asked_of(demo_book, practice, head_of(hair), "situations/coarse-level-3-to-9/")
    assert asked.answered is not None and asked.answered.verdict == "more than one visit"
    assert len(asked.answered.visits) >= 2
    assert all(re.search("Strand test", each) for each in asked.answered.visits)
