"""What ``bowlbook mix`` prints with the figures: names, volume, cautions, limits, doses, too large a bowl."""

from pathlib import Path

import pytest

from checks.small_book import BLEND_FILE, CLAY_FILE, HOUSE_FILE, SmallBook
from commands.bonded_book import bonded
from commands.run import run, run_json


@pytest.fixture
def book(tmp_path: Path) -> SmallBook:
    return bonded(tmp_path / "recipes")


def text(book: SmallBook, *words: str) -> str:
    result = run("mix", *words, recipes=book.root)
    assert result.exit_code == 0, result.stderr
    return " ".join(result.stdout.split())


def test_the_developer_its_volume_and_the_cautions_are_printed_with_the_figures(book: SmallBook) -> None:
    said = text(book, "bonded", "--batch", "40g", "--developer", "developer-40")
    assert "Bonded clay three to one: batch 40 g, Strong cream (40 volume)" in said
    assert "Mind: Never on hair that was stretched." in said
    data = run_json("mix", "bonded", "--batch", "40g", "--developer", "developer-40", recipes=book.root)
    assert (data["developer"], data["volume"]) == ("developer-40", "40")
    assert data["cautions"] == ["Never on hair that was stretched."]
    assert data["over_limits"] == []


def test_a_volume_that_is_in_the_name_is_not_repeated(book: SmallBook) -> None:
    book.edit("products/developer-40.yml", "Strong cream", "Developer, 40 volume")
    assert "Developer, 40 volume, scale steps" in text(book, "bonded", "--developer", "developer-40")


def test_a_developer_over_a_limit(book: SmallBook) -> None:
    """The lightener's maker, the house on the scalp, and a legal limit with jurisdiction, day and source."""
    book.edit(CLAY_FILE, "developer_limit: 40 volume", "developer_limit: 30 volume")
    book.edit("blends/bonded.yml", "placement: [open-air]", "placement: [open-air, on-scalp]")
    book.add(
        HOUSE_FILE,
        "limits: [{jurisdiction: Sampleland, peroxide: 6 %, since: 2020-01-01, source: 'An Act, 1'}]\n",
    )
    words = ("bonded", "--batch", "40g", "--developer", "developer-40")
    expected = [
        "40 volume is over the limit of Plain clay: 30 volume at most.",
        "40 volume is over the house's limit on the scalp: 20 volume at most there.",
        # 12 % x 60 / 105 = 6.857
        "6.86 % peroxide in the bowl is over 6 % (Sampleland, since 2020-01-01: An Act, 1).",
    ]
    assert run_json("mix", *words, recipes=book.root)["over_limits"] == expected
    said = text(book, *words)
    assert all(each in said for each in expected)
    assert run_json("mix", "bonded", "--batch", "40g", recipes=book.root)["over_limits"] == []


def test_an_additive_counts_in_the_worst_error_and_in_the_nearest_size(book: SmallBook) -> None:
    """8:1 of 4 g on steps of 1 g: 0.5 g reads 1 g, 100 % off and twice the dose; of 8 g it is 1 g, and 6 and
    2 g of the lighteners and 12 g of developer are exact. Between them it is 0.625 to 0.875 g. By hand."""
    data = run_json("mix", "bonded", "--batch", "4g", recipes=book.root)
    assert [row["weigh"] for row in data["pours"]] == ["3", "1", "6", "1"]
    assert data["worst_error_percent"] == "100.00"
    assert data["within_tolerance"] is False
    assert data["next_weighable_batch"] == "8"
    assert data["over_dose"] == [{"product": "bond", "weigh": "1", "most": "0.5"}]
    assert "1 g of Bond drops is over its maker’s dose, 0.5 g." in text(book, "bonded", "--batch", "4g")


def test_a_dose_is_held_against_the_maker_not_the_recipe(book: SmallBook) -> None:
    """16:1 in the recipe and 8:1 by the maker: 8 g take 0.5 g, read 1 g, and the maker allows 1 g."""
    book.edit("blends/bonded.yml", "ratio: 8:1", "ratio: 16:1")
    data = run_json("mix", "bonded", "--batch", "8g", recipes=book.root)
    assert (data["pours"][3]["weigh"], data["over_dose"]) == ("1", [])
    assert data["worst_error_percent"] == "100.00"


def test_the_check_says_both_in_one_finding(book: SmallBook) -> None:
    book.edit(HOUSE_FILE, "g: [20, 40]", "g: [4, 16]")
    book.write(BLEND_FILE, book.texts[BLEND_FILE])
    found = [each for each in book.judged() if each.place.path.endswith("bonded.yml")]
    assert [each.message for each in found if each.code == "unweighable-batch" and "4 g" in each.message] == [
        "4 g cannot be weighed in steps of 1 g: 100.0 % off, and the house allows 5 %. "
        "1 g of Bond drops is over its maker’s dose, 0.5 g."
    ]


@pytest.mark.parametrize(
    ("batch", "house", "said"),
    [
        ("500g", "", None),
        ("501g", "", "Really 501 g of lightener? One bowl holds 500 g at most."),
        ("20oz", "", "Really 20 oz (567 g) of lightener? One bowl holds 500 g at most."),
        ("17.6oz", "", None),  # 498.95 g
        ("8oz", "largest_batch: 200 g\n", "Really 8 oz (227 g) of lightener? One bowl holds 200 g at most."),
        ("20oz", "largest_batch: 2 lb\n", None),
    ],
)
def test_a_batch_over_what_fits_a_bowl_is_questioned(
    book: SmallBook, batch: str, house: str, said: str | None
) -> None:
    book.add(HOUSE_FILE, house)
    shown = text(book, "soft-clay", "--batch", batch)
    assert ("Really" in shown) == (said is not None)
    assert said is None or said in shown
    data = run_json("mix", "soft-clay", "--batch", batch, recipes=book.root)
    assert data["over_bowl"] == (said is not None)


def test_a_bowl_put_right_that_no_longer_fits(book: SmallBook) -> None:
    words = ("soft-clay", "--batch", "400g", "--poured", "developer-20=1100g")
    assert "Really 550 g of lightener?" in text(book, *words)
    assert run_json("mix", *words, recipes=book.root)["over_bowl"] is True


def test_an_empty_bowl_is_called_empty(book: SmallBook) -> None:
    assert "In the bowl now: nothing. " in text(book, "soft-clay", "--batch", "1oz", "--poured", "clay=0oz")
