"""``bowlbook kit``: the kit in words, and clear refusals; its figures: ``tests/second_reckoning``."""

from pathlib import Path

import pytest

from checks.small_book import CLASS_FILE, DEVELOPER_FILE, HOUSE_FILE, TECHNIQUE_FILE, SmallBook
from commands.run import refused, run, run_json


def test_words(recipes: Path) -> None:
    result = run("kit", "weighing-a-bowl", recipes=recipes)
    assert result.exit_code == 0
    assert "Weighing a bowl that tells the truth, 8 learners" in result.stdout
    assert "Gloves" in result.stdout and "for each learner." in result.stdout


@pytest.mark.parametrize("learners", ["0", "-3", "501"])
def test_refused_numbers(recipes: Path, learners: str) -> None:
    assert "1 to 500 learners" in refused("kit", "open-air-or-foil", "--learners", learners, recipes=recipes)


def test_no_such_class(recipes: Path) -> None:
    assert 'Did you mean "open-air-or-foil"?' in refused("kit", "open-air-or-foils", recipes=recipes)


def test_a_house_that_weighs_in_ounces_only_has_a_kit(book: SmallBook) -> None:
    """20 g of lightener: 1 oz of the sizes, three quarters of it clay."""
    book.edit(HOUSE_FILE, "g: [20, 40]", "g: []")
    book.edit(HOUSE_FILE, "scale_step: {oz: 0.05, g: 1}", "scale_step: {oz: 0.05}")
    result = run("kit", "first-painting", recipes=book.root)
    assert result.exit_code == 0, result.stderr
    assert "  Plain clay: 1 x 450 g, needs 0.75 oz, 39.00 CAD" in result.stdout


def test_uneven_sizes_are_weighed_without_a_traceback(book: SmallBook) -> None:
    book.edit(HOUSE_FILE, "g: [20, 40]", "g: [20.000001, 40.000003, 2000]")
    book.edit(TECHNIQUE_FILE, "section: 5 g", "section: 400 g")
    assert run_json("kit", "first-painting", recipes=book.root)["cost"] is not None


def test_what_is_missing_is_named(book: SmallBook) -> None:
    book.edit(DEVELOPER_FILE, "pack: {net: 1 L, price: 14.50, priced_on: 2026-09-01}\n", "")
    result = run("kit", "first-painting", recipes=book.root)
    said = "Cost: 105.50 CAD without Developer 20, which has no price."
    assert said in result.stdout
    data = run_json("kit", "first-painting", recipes=book.root)
    assert (data["cost"], data["known_cost"], data["without_price"]) == (None, "105.50", ["developer-20"])


def test_a_bowl_that_reads_zero_is_named(book: SmallBook) -> None:
    book.add(HOUSE_FILE, "any_batch: yes\n")
    book.edit(TECHNIQUE_FILE, "section: 5 g", "section: 0.2 g")
    result = run("kit", "first-painting", recipes=book.root)
    assert result.exit_code == 0
    assert "Not in this kit: Soft clay three to one cannot be weighed out for this: in 1 g" in result.stdout
    assert "Foil, wide: 1 x 500 pieces" in result.stdout


def test_hair_that_was_not_measured_is_refused_with_the_mend(book: SmallBook) -> None:
    book.edit(CLASS_FILE, "heads: 1}", "heads: 1, length: long}")
    said = refused("kit", "first-painting", recipes=book.root)
    assert "The house has not measured long hair. Add long to hair_amounts in house.yml." in said
