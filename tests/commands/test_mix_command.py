"""``bowlbook mix``: the design's own bowl to the letter, and wrong use refused.

Any other bowl is reckoned a second time in ``tests/second_reckoning``.
"""

import json
import re
from pathlib import Path

import pytest

from bowlbook.book import read_book
from checks.small_book import BLEND_FILE, CLAY_FILE, DEVELOPER, DEVELOPER_FILE, POWDER_FILE, SmallBook
from commands.run import refused, run, run_json

BOWL = ("mix", "soft-clay", "--batch", "0.5oz")


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> SmallBook:
    """The small book, only read here, and a second blend with an additive and two developers."""
    book = SmallBook(tmp_path_factory.mktemp("mix") / "recipes")
    book.write("products/developer-10.yml", DEVELOPER.replace("20\n", "10\n").replace("6 %", "3 %"))
    book.write(
        "products/bond.yml",
        "name: Bond drops\nkind: additive\ndoes: Mends bonds.\n"
        "pack: {net: 250 g, price: 48.00, priced_on: 2026-09-01}\n",
    )
    text = book.texts[BLEND_FILE].replace("Soft clay", "Bonded clay")
    text = text.replace("1:2, product: developer-20", "1:1.5, product: developer-20, also: [developer-10]")
    book.write("blends/bonded.yml", text + "additives: [{product: bond, ratio: 8:1}]\n")
    return book


def test_what_was_read_is_kept_for_the_next_bowl(
    kept: SmallBook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path / "cache"))
    read: list[str] = []
    first = read_book.read_entry
    monkeypatch.setattr(
        read_book, "read_entry", lambda file, content: (read.append(file.id), first(file, content))[1]
    )
    bowl = run_json(*BOWL, recipes=kept.root)
    assert sorted(read) == ["clay", "developer-20", "house", "powder", "soft-clay"]
    read.clear()
    assert run_json(*BOWL, recipes=kept.root) == bowl
    assert read == []


def test_the_bowl_of_the_design(kept: SmallBook) -> None:
    """DESIGN.md, Commands, keys in that order too: 3:1, 0.5 oz, 1:2 with 20 volume = 6 %, clay at 39.00 for
    450 g.

    Clay: 0.40 oz x 28.349523125 g/oz (NIST Handbook 44) x 39/450 = 0.9828. The other two costs are of
    prices made up so that the total is the design's 1.92. 1 oz is 28.3495 g, at 1.02 g/mL 27.8 mL.
    """
    expected = {
        "blend": "soft-clay",
        "batch": "0.5 oz",
        "step": "0.05 oz",
        "pours": [
            {
                "product": "clay",
                "role": "lightener",
                "exact": "0.375",
                "weigh": "0.40",
                "scale_shows": "0.40",
                "millilitres": None,
                "cost": "0.98",
            },
            {
                "product": "powder",
                "role": "lightener",
                "exact": "0.125",
                "weigh": "0.10",
                "scale_shows": "0.50",
                "millilitres": None,
                "cost": "0.54",
            },
            {
                "product": "developer-20",
                "role": "developer",
                "exact": "1",
                "weigh": "1.00",
                "scale_shows": "1.50",
                "millilitres": "27.8",
                "cost": "0.40",
            },
        ],
        "bowl_total": "1.50",
        "peroxide_percent": "4.00",
        "worst_error_percent": "20.00",
        "within_tolerance": False,
        "next_weighable_batch": "0.60",
        "cost": "1.92",
        "currency": "CAD",
        "developer": "developer-20",
        "volume": "20",
        "cautions": [],
        "over_limits": [],
        "over_dose": [],
        "over_bowl": False,
        "known_cost": "1.92",
        "without_price": [],
    }
    found = run_json(*BOWL, recipes=kept.root)
    assert found == expected
    assert json.dumps(found) == json.dumps(expected)


def test_any_batch_on_any_scale(kept: SmallBook) -> None:
    data = run_json("mix", "soft-clay", "--batch", "47g", "--step", "0.1g", recipes=kept.root)
    assert (data["batch"], data["step"]) == ("47 g", "0.1 g")
    # 35.25 and 11.75 g: a tie of half a step, which goes to the first; developer 94 g.
    assert [row["exact"] for row in data["pours"]] == ["35.25", "11.75", "94"]
    assert [row["weigh"] for row in data["pours"]] == ["35.3", "11.7", "94.0"]
    assert [row["scale_shows"] for row in data["pours"]] == ["35.3", "47.0", "141.0"]
    assert data["worst_error_percent"] == "0.43"  # 0.05 / 11.75
    assert data["within_tolerance"] is True
    assert data["next_weighable_batch"] == "47.0"


def test_the_other_developer_and_an_additive(kept: SmallBook) -> None:
    data = run_json("mix", "bonded", "--batch", "40 g", "--developer", "developer-10", recipes=kept.root)
    assert [(row["product"], row["role"], row["weigh"]) for row in data["pours"]] == [
        ("clay", "lightener", "30"),
        ("powder", "lightener", "10"),
        ("developer-10", "developer", "60"),
        ("bond", "additive", "5"),
    ]
    assert data["peroxide_percent"] == "1.71"  # 3 % x 60 / 105
    own = run_json("mix", "bonded", "--batch", "40 g", recipes=kept.root)
    assert own["peroxide_percent"] == "3.43"  # 6 % x 60 / 105


def test_without_a_batch_it_is_the_first_of_the_ladder(kept: SmallBook) -> None:
    assert run_json("mix", "soft-clay", recipes=kept.root)["batch"] == "1 oz"


@pytest.mark.parametrize(("batch", "shown"), [("0.5 oz", "0.5 oz"), ("1lb", "16 oz"), ("0.04 kg", "40 g")])
def test_units_of_weight(kept: SmallBook, batch: str, shown: str) -> None:
    assert run_json("mix", "soft-clay", "--batch", batch, recipes=kept.root)["batch"] == shown


def test_as_text(kept: SmallBook) -> None:
    result = run(*BOWL, recipes=kept.root)
    assert result.exit_code == 0
    lines = [" ".join(line.split()) for line in result.stdout.splitlines()]
    assert "Plain clay 0.40 0.40" in lines
    assert "Violet powder 0.10 0.50" in lines
    assert "Soft clay three to one: batch 0.5 oz, Developer 20 (20 volume), scale steps of 0.05 oz" in lines
    assert "Developer 20 1.00 1.50 (27.8 mL)" in lines
    assert "In the bowl: 1.50 oz, 4.00 % peroxide." in lines
    assert (
        "Rounding puts this 20.00 % off the recipe; the nearest size this scale can weigh is 0.60 oz."
        in lines
    )
    assert "Cost: 1.92 CAD" in lines
    assert "gloves" in lines[-1]


def test_a_bowl_without_a_price(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "pack: {net: 450 g, price: 39.00, priced_on: 2026-09-01}\n", "")
    data = run_json(*BOWL, recipes=book.root)
    assert (data["cost"], data["known_cost"], data["without_price"]) == (None, "0.94", ["clay"])
    assert [row["cost"] for row in data["pours"]] == [None, "0.54", "0.40"]
    text = run(*BOWL, recipes=book.root).stdout
    assert "Cost: 0.94 CAD without Plain clay, which has no price\n" in text
    for name in (POWDER_FILE, DEVELOPER_FILE):
        book.write(name, re.sub(r"(?m)^pack: .*\n", "", book.texts[name]))
    assert run_json(*BOWL, recipes=book.root)["known_cost"] is None
    assert "Cost" not in run(*BOWL, recipes=book.root).stdout


def test_a_developer_by_weight_has_no_millilitres(book: SmallBook) -> None:
    book.edit(DEVELOPER_FILE, "density: 1.02 g/mL\n", "")
    book.edit(DEVELOPER_FILE, "1 L", "1 kg")
    assert run_json(*BOWL, recipes=book.root)["pours"][2]["millilitres"] is None


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("mix", "soft-cley", "--batch", "1oz"), 'There is no blend "soft-cley". Did you mean "soft-clay"?'),
        (("mix", "soft-clay", "--batch", "2 fl oz"), "fl oz"),
        (("mix", "soft-clay", "--batch", "2"), "the unit is missing"),
        (("mix", "soft-clay", "--batch", "-2oz"), "a sign has no place here"),
        (("mix", "soft-clay", "--batch", "0,5oz"), "Write 0.5"),
        (("mix", "soft-clay", "--batch", "0oz"), "cannot be right"),
        (("mix", "soft-clay", "--batch", "nan g"), "ordinary number"),
        (("mix", "soft-clay", "--batch", "1oz", "--step", "fine"), "--step"),
        (("mix", "soft-clay", "--batch", "1oz", "--step", "1g"), "in oz and the step in g. Give both in oz."),
        (("mix", "soft-clay", "--batch", "40g", "--step", "0.05oz"), "Give both in g."),
        (
            ("mix", "soft-clay", "--batch", "0.1oz"),
            "Violet powder would read zero on this scale. The nearest size this scale can weigh is 0.20 oz.",
        ),
        (
            ("mix", "soft-clay", "--batch", "1oz", "--developer", "developer-2"),
            'Did you mean "developer-20"?',
        ),
        (("mix",), "BLEND"),
    ],
)
def test_wrong_use(kept: SmallBook, words: tuple[str, ...], says: str) -> None:
    assert says in refused(*words, recipes=kept.root)


def test_a_book_with_an_error_elsewhere_still_mixes(book: SmallBook) -> None:
    book.write("blends/other.yml", "name: Other\n")
    assert run_json(*BOWL, recipes=book.root)["bowl_total"] == "1.50"


def test_a_blend_with_an_error_does_not(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "parts: 3", "parts: 3/4")
    result = run(*BOWL, recipes=book.root)
    assert result.exit_code == 1
    assert ":3:28: bad-amount " in result.stderr
    assert result.stdout == ""


def test_a_product_with_an_error_stops_the_blends_it_is_in(book: SmallBook) -> None:
    book.edit(POWDER_FILE, "strong", "stronk")
    result = run(*BOWL, recipes=book.root)
    assert result.exit_code == 1
    assert "unknown-word" in result.stderr


def test_no_book(tmp_path: Path) -> None:
    result = run(*BOWL, recipes=tmp_path)
    assert result.exit_code == 1
    assert "no-house" in result.stderr
