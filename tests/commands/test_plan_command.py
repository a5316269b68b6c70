"""``bowlbook plan``: a service in words, and clear refusals; its figures: ``tests/second_reckoning``."""

from pathlib import Path

from checks.small_book import BLEND_FILE, DEVELOPER_FILE, FOIL_FILE, HOUSE_FILE, TECHNIQUE_FILE, SmallBook
from commands.run import refused, run, run_json


def test_words(recipes: Path) -> None:
    result = run("plan", "fine-weaves", "--unit", "g", "--hands", "1", recipes=recipes)
    assert result.exit_code == 0
    assert "Bowl 2: 30 sections, 30 minutes" in result.stdout
    assert "Cotton strip: 1 piece\n" in result.stdout
    assert "makers' instructions first" in result.stdout


def test_wrong_use(recipes: Path) -> None:
    assert 'Did you mean "fine-weaves"?' in refused("plan", "fine-weave", recipes=recipes)
    assert "endless" in refused("plan", "fine-weaves", "--length", "endless", recipes=recipes)


def lines_of(book: SmallBook, *more: str) -> list[str]:
    result = run("plan", "painting", *more, recipes=book.root)
    assert result.exit_code == 0, result.stderr
    return result.stdout.split("\n")


def test_a_house_that_mixes_in_grams_is_answered_in_grams(book: SmallBook) -> None:
    """With a step in both units, and asked for ounces in so many words."""
    book.edit(HOUSE_FILE, "batches: {oz: [1, 2], g: [20, 40]}", "batches: {g: [20, 40]}")
    assert "    batch 20 g: the scale shows 15, 20, 60" in lines_of(book)
    said = refused("plan", "painting", "--unit", "oz", recipes=book.root)
    assert "The house does not mix in oz. It mixes in g; for oz write sizes and a scale's step" in said


def test_tare_again_before_another_weigh_out(book: SmallBook) -> None:
    book.edit(TECHNIQUE_FILE, "section: 5 g", "section: 14 g")  # 168 g at 1:2: 56 g of lightener
    found = lines_of(book, "--unit", "g")
    assert "    batch 40 g: the scale shows 30, 40, 120" in found
    assert "    tare again, then batch 20 g: the scale shows 15, 20, 60" in found


def test_a_weigh_out_off_the_recipe_says_so_as_a_bowl_does(book: SmallBook) -> None:
    """4:1 of 6 g in steps of 1 g: 4.8 and 1.2 read 5 and 1, 16.7 % off; 9 g, 7.2 and 1.8, are off 11.1 %; 10
    are exact."""
    book.edit(BLEND_FILE, "parts: 3", "parts: 4")
    book.edit(HOUSE_FILE, "g: [20, 40]", "g: [6]")
    book.edit(TECHNIQUE_FILE, "sections: 12", "sections: 3")
    found = lines_of(book, "--unit", "g")
    assert (
        "      Rounding puts this 16.7 % off the recipe; the nearest size this scale can weigh is 10 g."
        in found
    )
    data = run_json("plan", "painting", "--unit", "g", recipes=book.root)
    assert data["bowls"][0]["fresh"][0]["weigh_outs"][0]["within_tolerance"] is False


def test_a_bowl_that_reads_zero_says_which_and_what_would_do(book: SmallBook) -> None:
    book.add(HOUSE_FILE, "any_batch: yes\n")
    book.edit(TECHNIQUE_FILE, "section: 5 g", "section: 0.2 g")
    said = (
        "Soft clay three to one cannot be weighed out for this: in 1 g Violet powder reads zero. The nearest "
        "size this scale can weigh is 4 g."
    )
    found = lines_of(book, "--unit", "g")
    assert f"    {said}" in found
    assert "Foil, wide: 10 pieces" in found
    cost = "Cost: 0.38 CAD without the bowl of Soft clay three to one, which cannot be weighed out."
    assert cost in found
    data = run_json("plan", "painting", "--unit", "g", recipes=book.root)
    assert data["bowls"][0]["fresh"][0]["cannot_weigh"] == said
    assert (data["cost"], data["known_cost"]) == (None, "0.38")


def test_a_missing_price_is_named(book: SmallBook) -> None:
    book.edit(DEVELOPER_FILE, "pack: {net: 1 L, price: 14.50, priced_on: 2026-09-01}\n", "")
    book.edit(FOIL_FILE, "pack: {net: 500 pieces, price: 19.00, priced_on: 2026-09-01}\n", "")
    cost = "Cost: 2.25 CAD without Developer 20 and Foil, wide, which have no price."
    assert cost in lines_of(book, "--unit", "g")
    data = run_json("plan", "painting", "--unit", "g", recipes=book.root)
    assert (data["cost"], data["known_cost"], data["left_over_cost"]) == (None, "2.25", None)
    assert data["without_price"] == ["developer-20", "foil"]


def test_waste_and_left_over_are_both_printed(book: SmallBook) -> None:
    book.add(HOUSE_FILE, "waste_allowance: 10 %\n")
    found = lines_of(book, "--unit", "g")
    assert "    6 g allowed for waste, 54 g left over" in found
    cost = (
        "Cost: 6.02 CAD (products 5.64 CAD, of them 0.28 CAD for waste and 2.54 CAD left over; "
        "supplies 0.38 CAD)."
    )
    assert cost in found
