"""Numbers with their nouns, and pages and commands that use them: one of a thing is never several."""

import re
from fractions import Fraction
from pathlib import Path

import pytest

from bowlbook.entries.facets import Facets
from bowlbook.reading.amount import Count, Span, counted
from bowlbook.wording.facet import facet_sentence
from bowlbook.wording.reason import phrase
from commands.run import run

NOUNS = "parts|levels|sections|minutes|heads|sheets|recipes|cards|pieces|learners|corners|cautions|files|gaps"
SEVERAL = re.compile(rf"(?<![\d.,–-])1 (?:{NOUNS})\b")


@pytest.mark.parametrize(
    "number, shown",
    [
        (0, "0 parts"),
        (1, "1 part"),
        (2, "2 parts"),
        (Fraction(1), "1 part"),
        (Fraction(3, 2), "1.5 parts"),
        (Fraction(1, 3), "0.333333 parts"),
        (Span(1, 1), "1 part"),
        (Span(1, 3), "1–3 parts"),
    ],
)
def test_a_number_with_its_noun(number: int | Fraction | Span, shown: str) -> None:
    assert counted(number, "part") == shown


def test_one_piece_and_one_level_of_lift() -> None:
    assert [str(Count(1)), str(Count(12))] == ["1 piece", "12 pieces"]
    assert [phrase("lift", 0b1), phrase("lift", 0b11)] == ["1 level of lift", "1–2 levels of lift"]
    assert phrase("natural_level", 0b1) == "natural level 1"
    assert facet_sentence(Facets(lift=Span(1, 1))) == "1 level of lift"


def test_no_page_and_no_command_counts_one_as_several(demo_site: Path, recipes: Path) -> None:
    pages = sorted(demo_site.rglob("*.html"))
    wrong = {
        f"{page.relative_to(demo_site)}: {found[0]}"
        for page in pages
        if (found := SEVERAL.findall(re.sub(r"<[^>]*>", "", page.read_text(encoding="utf-8"))))
    }
    assert len(pages) > 150 and wrong == set()
    for words in (
        ["match", "--lift", "1", "--level", "7"],
        ["kit", "open-air-or-foil", "--learners", "1"],
        ["plan", "triangle-in-two-foils", "--length", "short", "--density", "thin"],
    ):
        done = run(*words, recipes=recipes)
        assert done.exit_code == 0, done.stderr
        assert SEVERAL.findall(done.stdout) == [], words
