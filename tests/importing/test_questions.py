"""One answer for a column, or for the table: asked once, answered for all rows, or left open."""

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from bowlbook.commands import import_table, main
from commands.run import run
from importing.house_of_import import entry

RECIPES = """\
Recipe;Lightener;Parts;Developer;Ratio;Natural level;Lift;Texture;Placement;Additive;Dose;Fresh
One;White powder;1;20;1:2;6;1;medium;foil;Bond drops;1:20;45
Two;White powder;1;30;1/2;6;1;medium;foil;Bond drops;1:10;30
Three;White powder;1;20;1:2;6;1;medium;foil;;;40 min
Four;White powder;1;30 vol;1:2;6;1;medium;foil;Bond drops;20:1;
"""
PRODUCTS = """\
Name;Kind;Net;Price;Priced on;Peroxide;Volume
Old clay;additive;450;1.250;01/09/2026;;
New clay;additive;500;1.500;02/09/2026;;
Developer mild;developer;1000 g;12,50;25/10/2026;3;10
"""
MEANS = """\
means:
  Developer: volume
  Ratio: ratio
  dose: additive first
  Fresh: minutes
"""


def answer(house: Path, table: str, said: str = "") -> Any:
    (house.parent / "table.csv").write_text(table, encoding="utf-8")
    (house.parent / "said.yml").write_text(said, encoding="utf-8")
    words = ["import", str(house.parent / "table.csv"), "--json"]
    words += ["--columns", str(house.parent / "said.yml")] if said else []
    return json.loads(run(*words, recipes=house).stdout)


def asked(answer: Any) -> list[tuple[str, list[int]]]:
    """What is asked: the column and the rows."""
    return [(each["message"].split(":")[0], each["rows"]) for each in answer["findings"]]


def test_a_column_is_asked_about_once(house: Path) -> None:
    found = answer(house, RECIPES)
    assert asked(found) == [("Developer", [2, 3, 4]), ("Dose", [2, 3]), ("Fresh", [2, 3]), ("Ratio", [3])]
    developer = found["findings"][0]
    assert (
        developer["message"] == 'Developer: "20", "30" in 3 rows from row 2: Is this a strength in volumes?'
    )
    assert 'For all of them: means: {"Developer": volume} (or %) in the file' in developer["mend"]
    assert entry(house, "blends/one")["developer"]["product"] == "???"
    assert entry(house, "blends/four")["developer"]["product"].startswith("developer-30")


def test_an_answer_is_for_all_rows_of_its_column_and_for_no_cell_that_says_it_itself(house: Path) -> None:
    found = answer(house, RECIPES, MEANS)
    # 20:1 in a column that has the additive first would be 20 of the additive: still asked.
    assert asked(found) == [("Dose", [5])]
    one, two, three = (entry(house, f"blends/{each}") for each in ("one", "two", "three"))
    assert [one["developer"]["product"], two["developer"]["ratio"]] == ["developer-20", "1:2"]
    assert [each["additives"][0]["ratio"] for each in (one, two)] == ["20:1", "10:1"]
    assert [each["fresh_for"] for each in (one, two, three)] == ["45 minutes", "30 minutes", "40 minutes"]


def test_days_and_decimals_are_the_whole_tables(house: Path) -> None:
    found = answer(house, PRODUCTS)
    assert asked(found) == [("Net", [2, 3]), ("Price", [2, 3]), ("Priced on", [2, 3]), ("Peroxide", [4])]
    said = "decimal: point\ndays: month first\nmeans: {Net: g, Peroxide: '%'}\n"
    for path in house.glob("products/*-clay.yml"):
        path.unlink()
    answer(house, PRODUCTS, said)
    pack = entry(house, "products/old-clay")["pack"]
    assert (pack["net"], pack["price"], pack["priced_on"]) == ("450 g", "1.25", "2026-01-09")


def test_a_price_is_not_quoted_in_a_question(house: Path) -> None:
    found = answer(house, PRODUCTS)
    assert "1.250" not in json.dumps(found) and "Price: 2 rows from row 2: The point" in json.dumps(found)


def test_a_terminal_asks_each_once_and_an_empty_answer_leaves_it_open(
    house: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(import_table, "is_interactive", lambda: True)
    table = house.parent / "table.csv"
    table.write_text(RECIPES, encoding="utf-8")
    words = ["import", "--recipes", str(house), str(table)]
    result = CliRunner().invoke(main, words, input="y\nvolum\nvolume\nratio\n\nminutes\n")
    assert result.exit_code == 1, result.output
    assert [result.output.count(text) for text in ('Developer: "20"', 'Fresh: "45"')] == [2, 1]
    assert 'Did you mean "volume"?' in result.output
    one, two = (entry(house, f"blends/{each}") for each in ("one", "two"))
    assert (one["developer"]["product"], two["developer"]["ratio"]) == ("developer-20", "1:2")
    assert one["additives"][0]["ratio"] == "???" and one["fresh_for"] == "45 minutes"


def test_what_no_column_can_mean_is_refused(house: Path) -> None:
    (house.parent / "table.csv").write_text(RECIPES, encoding="utf-8")
    said = house.parent / "said.yml"
    said.write_text("means: {Developer: volumes, Fresh: [minutes]}\n", encoding="utf-8")
    result = run("import", str(house.parent / "table.csv"), "--columns", str(said), recipes=house)
    assert result.exit_code == 1 and result.stderr.count("bad-columns") == 2
    assert 'Did you mean "volume"?' in result.stderr
