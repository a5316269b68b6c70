"""``bowlbook kit``: the kit in words and as JSON, and clear refusals."""

from decimal import Decimal
from pathlib import Path

import pytest

from commands.run import run, run_json


def test_json_adds_up(recipes: Path) -> None:
    data = run_json("kit", "open-air-or-foil", "--learners", "8", recipes=recipes)
    assert data["learners"] == 8 and data["heads"] == [5, 5]
    assert sum(Decimal(line["cost"]) for line in data["lines"]) == Decimal(data["cost"])
    assert abs(Decimal(data["cost_per_learner"]) * 8 - Decimal(data["cost"])) <= Decimal("0.04")


def test_words(recipes: Path) -> None:
    result = run("kit", "weighing-a-bowl", recipes=recipes)
    assert result.exit_code == 0
    assert "Weighing a bowl that tells the truth, 8 learners" in result.stdout
    assert "Gloves" in result.stdout and "for each learner." in result.stdout


@pytest.mark.parametrize("learners", ["0", "-3", "501"])
def test_refused_numbers(recipes: Path, learners: str) -> None:
    result = run("kit", "open-air-or-foil", "--learners", learners, recipes=recipes)
    assert result.exit_code == 2 and "1 to 500 learners" in result.stderr


def test_no_such_class(recipes: Path) -> None:
    result = run("kit", "open-air-or-foils", recipes=recipes)
    assert result.exit_code == 2 and 'Did you mean "open-air-or-foil"?' in result.stderr
