"""``bowlbook mix --poured`` and ``--scale-shows``: what is in the bowl is never added again.

Bowls worked by hand; random ones are reckoned a second time in ``tests/second_reckoning``.
"""

import pytest

from checks.small_book import SmallBook
from commands.bonded_book import bonded
from commands.run import refused, run, run_json


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> SmallBook:
    return bonded(tmp_path_factory.mktemp("added") / "recipes")


def test_the_case_that_began_it(kept: SmallBook) -> None:
    """Developer 1.25 oz for 1.00: both lighteners are in. 0.65 oz takes 1.30; 0.4875 and 0.1625 read 0.50
    and 0.15. In the bowl 0.40 + 0.10 + 1.25 = 1.75; then the scale shows 1.85, 1.90, 1.95. By hand."""
    data = run_json(
        "mix", "soft-clay", "--batch", "0.5oz", "--poured", "developer-20=1.25oz", recipes=kept.root
    )
    assert data["corrected"] == {
        "batch": "0.65 oz",
        "pours": [
            {"product": "clay", "in_bowl": "0.40", "must_be": "0.50", "add": "0.10", "scale_shows": "1.85"},
            {"product": "powder", "in_bowl": "0.10", "must_be": "0.15", "add": "0.05", "scale_shows": "1.90"},
            {
                "product": "developer-20",
                "in_bowl": "1.25",
                "must_be": "1.30",
                "add": "0.05",
                "scale_shows": "1.95",
            },
        ],
    }


def test_as_text(kept: SmallBook) -> None:
    words = ("mix", "soft-clay", "--batch", "0.5oz", "--scale-shows", "1.75oz", "--after", "developer-20")
    lines = [" ".join(line.split()) for line in run(*words, recipes=kept.root).stdout.splitlines()]
    at = lines.index(
        "In the bowl now: 0.40 Plain clay; 0.10 Violet powder; 1.25 Developer 20. "
        "Take nothing out; make it a batch of 0.65 oz:"
    )
    assert lines[at + 1 : at + 5] == [
        "Plain clay add 0.10, the scale shows 1.85",
        "Violet powder add 0.05, the scale shows 1.90",
        "Developer 20 add 0.05, the scale shows 1.95",
        "Rounding puts this 7.69 % off the recipe; the nearest size this scale can weigh is 0.80 oz.",
    ]


def test_too_little_keeps_the_batch_and_is_topped_up(kept: SmallBook) -> None:
    words = ("--poured", "powder=0.05oz", "--scale-shows", "1.35oz", "--after", "developer-20")
    data = run_json("mix", "soft-clay", "--batch", "0.5oz", *words, recipes=kept.root)
    # In: 0.40 as planned, 0.05 as said, and 1.35 - 0.45 = 0.90 of developer.
    assert [row["in_bowl"] for row in data["corrected"]["pours"]] == ["0.40", "0.05", "0.90"]
    assert data["corrected"]["batch"] == "0.50 oz"
    assert [row["scale_shows"] for row in data["corrected"]["pours"]] == ["1.35", "1.40", "1.50"]


def test_a_pour_that_was_left_out(kept: SmallBook) -> None:
    words = ("--poured", "powder=0oz", "--poured", "developer-20=1.00oz")
    data = run_json("mix", "soft-clay", "--batch", "0.5oz", *words, recipes=kept.root)
    assert [row["add"] for row in data["corrected"]["pours"]] == ["0.00", "0.10", "0.00"]


def test_as_planned_changes_nothing(kept: SmallBook) -> None:
    words = ("--poured", "clay=0.40oz", "--poured", "powder=0.1 oz")
    corrected = run_json("mix", "soft-clay", "--batch", "0.5oz", *words, recipes=kept.root)["corrected"]
    assert corrected["batch"] == "0.50 oz"
    assert [row["add"] for row in corrected["pours"]] == ["0.00", "0.00", "1.00"]


def test_decimals_that_the_scale_has_not_are_kept(kept: SmallBook) -> None:
    """12.7 g on a scale of whole grams: no reading is rounded away, and the last total is a whole step."""
    data = run_json("mix", "soft-clay", "--batch", "16g", "--poured", "clay=12.7g", recipes=kept.root)
    assert data["corrected"]["pours"][0] == {
        "product": "clay", "in_bowl": "12.7", "must_be": "13.0", "add": "0.3", "scale_shows": "13.0"
    }  # fmt: skip


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--poured", "clai=1oz"), 'Did you mean "clay"?'),
        (("--poured", "clay"), "PRODUCT=WEIGHT"),
        (("--poured", "clay=1 fl oz"), "fl oz"),
        (("--poured", "clay=-1oz"), "a sign has no place here"),
        (("--poured", "clay=22g"), "The bowl is weighed in oz, and 22 g is not"),
        (("--poured", "clay=1oz", "--poured", "clay=1.1oz"), 'the weight of "clay" twice'),
        (("--scale-shows", "1.5oz"), "go together"),
        (("--after", "clay"), "go together"),
        (("--scale-shows", "1.5oz", "--after", "cley"), 'Did you mean "clay"?'),
        (("--scale-shows", "80g", "--after", "clay"), "The bowl is weighed in oz"),
        (("--scale-shows", "2oz", "--after", "clay", "--poured", "clay=1oz"), "given twice"),
        (
            ("--scale-shows", "0.9oz", "--after", "developer-20"),
            "Before Developer 20 the scale showed 1.00 oz, so that after it 0.9 oz cannot be right.",
        ),
        (("--scale-shows", "1oz", "--after", "developer-20"), "cannot be right"),
        (("--scale-shows", "1.1oz", "--after", "developer-20", "--poured", "clay=1.2oz"), "showed 1.45 oz"),
    ],
)
def test_wrong_use(kept: SmallBook, words: tuple[str, ...], says: str) -> None:
    assert says in refused("mix", "soft-clay", "--batch", "1oz", *words, recipes=kept.root)
