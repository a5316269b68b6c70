"""Every code's wrong and right example, as the docs show them, carried out on the small book."""

import re
from pathlib import Path

import pytest

from bowlbook.checks import code_of
from bowlbook.checks.run import CHECKS
from bowlbook.pages.example import EXAMPLES, example_of
from bowlbook.reading.code import READING_CODES
from checks.example_run import said_of
from checks.small_book import SmallBook

CODES = sorted([*READING_CODES, *map(code_of, CHECKS)])
SAID_OF_TWO = {"batch-over-bowl", "rule-contradicts-suits"}
"""Two sizes, and a blend and its technique; each other wrong example is one finding."""


def test_every_code_has_one_and_there_is_no_other() -> None:
    assert sorted(path.name for path in EXAMPLES.iterdir()) == [f"{code}.yml" for code in CODES]


@pytest.mark.parametrize("code", CODES)
def test_the_wrong_one_is_found_and_the_page_says_what_check_says(
    code: str, book: SmallBook, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(book.root.parent)
    said = said_of(book, example_of(code).wrong)
    assert len(said) == (2 if code in SAID_OF_TWO else 1)
    assert {re.match(r"\S[^\n]*?:\d+:\d+: (\S+)", text)[1] for text in said} == {code}
    assert re.sub(r":\d+:\d+: ", ": ", said[0], count=1) == example_of(code).says


@pytest.mark.parametrize("code", CODES)
def test_the_right_one_has_no_finding(code: str, book: SmallBook, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(book.root.parent)
    assert said_of(book, example_of(code).right) == []


def test_a_broken_example_is_reported(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr("bowlbook.pages.example.EXAMPLES", tmp_path)
    (tmp_path / "none-such.yml").write_text("wrong: x\nright: y\n", encoding="utf-8")
    with pytest.raises(ValueError, match=r"keys wrong, right and says: .*none-such\.yml"):
        example_of("none-such")
