"""``bowlbook plan``: a service in words and as JSON, and clear refusals."""

from decimal import Decimal
from pathlib import Path

from commands.run import run, run_json


def test_json(recipes: Path) -> None:
    asked = ("triangle-in-two-foils", "--length", "long", "--density", "thick")
    data = run_json("plan", *asked, recipes=recipes)
    assert data["factor"] == "1.82"
    assert [each["blend"] for each in data["bowls"]] == [
        "cool-foil-coarse",
        "cool-foil-coarse",
        "smoke-gloss",
    ]
    first = data["bowls"][0]["fresh"][0]
    assert [each["batch"] for each in first["weigh_outs"]] == ["2 oz", "1 oz"]
    assert [each["scale_shows"] for each in first["weigh_outs"][0]["pours"]] == ["1.33", "2.00", "6.00"]
    bowls = sum(Decimal(each["cost"]) for each in data["bowls"])
    supplies = sum(Decimal(each["cost"]) for each in data["supplies"])
    assert bowls == Decimal(data["products_cost"]) and supplies == Decimal(data["supplies_cost"])
    assert bowls + supplies == Decimal(data["cost"])


def test_words(recipes: Path) -> None:
    result = run("plan", "fine-weaves", "--unit", "g", recipes=recipes)
    assert result.exit_code == 0
    assert "Bowl 2: 30 sections, 30 minutes" in result.stdout
    assert "Cotton strip: 1 piece\n" in result.stdout
    assert "makers' instructions first" in result.stdout


def test_wrong_use(recipes: Path, tmp_path: Path) -> None:
    wrong = run("plan", "fine-weave", recipes=recipes)
    assert wrong.exit_code == 2 and 'Did you mean "fine-weaves"?' in wrong.stderr
    assert run("plan", "fine-weaves", "--length", "endless", recipes=recipes).exit_code == 2
