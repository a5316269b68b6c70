"""The nearest known name, and what is said where none is near."""

import pytest

from bowlbook.reading.nearest import did_you_mean, nearest

FRUIT = ["Apple", "banana", "cherry"]


def test_the_nearest_whatever_the_case() -> None:
    assert nearest("APPEL", FRUIT) == "Apple"
    assert nearest("  bananna ", FRUIT) == "banana"
    assert nearest("xyz", FRUIT) is None
    assert nearest("ban", FRUIT) == "banana"  # two thirds alike: 2 x 3 of 9 letters
    assert nearest("bn", FRUIT) is None  # a half: 2 x 2 of 8


def test_of_two_the_nearer() -> None:
    assert nearest("developer-02", ["developer-2", "developer-20"]) in ("developer-20", "developer-2")
    assert nearest("clay-soft", ["clay-soft-2", "clay-soft-21"]) == "clay-soft-2"


def test_a_long_word_is_cut_first() -> None:
    assert nearest("x" * 60 + "y" * 500, ["x" * 60]) == "x" * 60


@pytest.mark.parametrize(
    ("word", "known", "said"),
    [
        ("aple", FRUIT, 'Did you mean "Apple"?'),
        ("xyz", FRUIT, "Use one of: Apple, banana, cherry."),
        ("xyz", ["one"], "Use one of: one."),
        ("xyz", [], ""),
        (
            "xyz",
            [f"word-{n:02}" for n in range(12)],
            "Use one of: " + ", ".join(f"word-{n:02}" for n in range(12)) + ".",
        ),
        ("xyz", [f"word-{n:02}" for n in range(13)], ""),
    ],
)
def test_what_is_said(word: str, known: list[str], said: str) -> None:
    assert did_you_mean(word, known) == said
