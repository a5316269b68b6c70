"""Two hundred recipes by weight, in ounces with fractions: parts and ratio are exact, or asked about.

The parts and ratios beside the weights were reckoned by hand: the weights in their smallest whole numbers,
and developer over the sum of the lighteners.
"""

import csv
import json
from pathlib import Path

import pytest
from ruamel.yaml import YAML

from commands.run import run
from importing.house_of_import import HOUSE, write_house

HEAD = (
    *("Formula", "Lightener 1", "Amount 1 (oz)", "Lightener 2", "Amount 2 (oz)", "Developer"),
    *("Developer amount (oz)", "Natural level", "Lift", "Texture", "Placement"),
)
OUNCES = HOUSE.replace("EUR", "CAD").replace("pt-PT", "en-CA").replace("{g: [30, 60]}", "{oz: [0.5, 1, 2]}")
OUNCES = OUNCES.replace("{g: 0.1}", "{oz: 0.01}")
OPEN = "???"
ASKED, LEFT_OUT = "asked", "left out"
# Of both lighteners and the developer: what is written; then parts, ratio, and what becomes of the row.
WEIGHTS = [
    ("¾", "¼", "1 1/2", ["3", "1"], "1:1.5", ""),
    ("1/2", "1/2", "2", ["1", "1"], "1:2", ""),
    ("1", "", "2", ["1"], "1:2", ""),
    ("3/8", "1/8", "1", ["3", "1"], "1:2", ""),
    ("1½", "½", "3", ["3", "1"], "1:1.5", ""),
    ("2/3", "1/3", "2", ["2", "1"], "1:2", ""),
    ("1", "1/2", "2", ["2", "1"], "3:4", ""),  # 2 over 1.5 is 4 over 3, no decimal
    ("0.75 oz", "0.25 oz", "1.5 oz", ["3", "1"], "1:1.5", ""),
    ("1", "0.5", "3 fl oz", ["2", "1"], OPEN, ASKED),  # a volume is no weight
    ("1 1/4", "3/4", "3", ["5", "3"], "1:1.5", ""),
    ("30 g", "1/2", "2", [OPEN, OPEN], OPEN, ASKED),  # grams and ounces in one bowl
    ("1/2", "1/2", "", ["1", "1"], OPEN, ""),  # nothing is said, so nothing is asked; check finds the gap
    ("half", "half", "2", [OPEN, OPEN], OPEN, ASKED),  # half of what
    ("1,5", "0,5", "4", ["3", "1"], "1:2", ""),
    ("⅔", "⅓", "1 ½", ["2", "1"], "1:1.5", ""),
    ("0", "1", "2", [OPEN, OPEN], OPEN, ASKED),  # nothing of the first
    ("2", "1", "1/3", [], "", LEFT_OUT),  # 9:1, far under the makers' 1:1
    ("1", "", "16", [], "", LEFT_OUT),  # 1:16, far over the makers' 1:3
    ("2", "1", "3", ["2", "1"], "1:1", ""),
    ("5/8", "3/8", "2", ["5", "3"], "1:2", ""),
]


@pytest.fixture
def table(tmp_path: Path) -> Path:
    path = tmp_path / "formulas.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file)
        rows.writerow(HEAD)
        for number in range(200):
            one, other, developer = WEIGHTS[number % 20][:3]
            second = "Violet powder" if other else ""
            rows.writerow(
                [
                    *(f"Formula {number + 1}", "White powder", one, second, other, "20 vol", developer),
                    *("6-8", "1-3", "medium", "foil"),
                ]
            )
    return path


@pytest.mark.long
def test_two_hundred_recipes(tmp_path: Path, table: Path) -> None:
    house = write_house(tmp_path / "recipes", OUNCES)
    answer = json.loads(run("import", str(table), "--json", recipes=house).stdout)
    written = {each["id"]: each for each in answer["entries"]}
    asked = {row for each in answer["findings"] if each["code"] == "unclear-cell" for row in each["rows"]}
    left_out = {each["row"] for each in answer["findings"] if each["severity"] == "error"}
    assert answer["rows"] == 200 and len(written) == 180
    reader = YAML(typ="base", pure=True)
    for number in range(200):
        one, other, developer, parts, ratio, fate = WEIGHTS[number % 20]
        row = number + 2
        assert (row in left_out) == (fate == LEFT_OUT), (one, other, developer)
        if fate == LEFT_OUT:
            continue
        assert (row in asked) == (fate == ASKED), (one, other, developer)
        found = reader.load((house / "blends" / f"formula-{number + 1}.yml").read_text(encoding="utf-8"))
        ids = ["white-powder", "violet-powder"][: len(parts)]
        assert found["lighteners"] == [
            {"product": each, "parts": part} for each, part in zip(ids, parts, strict=True)
        ], (one, other)
        assert found["developer"] == {"ratio": ratio, "product": "developer-20"}, (one, other, developer)
        assert found["suits"] == {
            "natural_level": "6-8",
            "lift": "1-3",
            "texture": ["medium"],
            "placement": ["foil"],
        }


def test_figures_of_an_imported_recipe(tmp_path: Path, table: Path) -> None:
    """By hand: 1 oz of 3:1 is 0.75 and 0.25; developer 1.5 to 1 is 1.50; 6 % of 1.50 in 2.50 is 3.60 %."""
    house = write_house(tmp_path / "recipes", OUNCES)
    run("import", str(table), recipes=house)
    bowl = json.loads(run("mix", "formula-1", "--batch", "1oz", "--json", recipes=house).stdout)
    assert [pour["weigh"] for pour in bowl["pours"]] == ["0.75", "0.25", "1.50"]
    assert bowl["peroxide_percent"] == "3.60"
