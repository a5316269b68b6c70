"""``bowlbook diff`` against a revision of which some files cannot be read."""

import json
from pathlib import Path

import pytest

from checks.small_book import BLEND_FILE, CLAY_FILE, FOIL_FILE, HOUSE_FILE, SmallBook
from commands.git import commit, git
from commands.run import run


@pytest.fixture
def house(tmp_path: Path) -> SmallBook:
    """The small book in a repository; at ``spring`` the clay's unit is misspelt, now it is right."""
    book = SmallBook(tmp_path / "house" / "recipes")
    git(tmp_path, "init", "-q", "house")
    book.edit(CLAY_FILE, "450 g", "450 gr")
    commit(book.root, tag="spring")
    book.edit(CLAY_FILE, "450 gr", "450 g")
    return book


USERS = {"soft-clay", "painting", "fine-hair", "first-painting"}


def test_one_misspelt_unit_makes_nothing_new(house: SmallBook) -> None:
    """The file is named with its first mistake; what uses it is not compared; the rest is."""
    house.edit(FOIL_FILE, "12 cm", "11 cm")
    result = run("diff", "spring", "--json", recipes=house.root)
    assert result.exit_code == 1
    assert f"Not read at spring:\n  spring:recipes/{CLAY_FILE}:9:13: wrong-unit " in result.stderr
    states = {each["id"]: each["state"] for each in json.loads(result.stdout)}
    assert states == {**dict.fromkeys((*USERS, "clay"), "not compared"), "foil": "changed"}
    text = run("diff", "spring", recipes=house.root).stdout
    assert "Product “Plain clay”: not compared" in text
    assert "1 changed, 5 not compared." in text
    assert "new" not in text
    assert "Who should know" in text  # of the foil, not of what is not known


def test_nobody_is_named_for_what_is_not_known(house: SmallBook) -> None:
    assert "Who should know" not in run("diff", "spring", recipes=house.root).stdout


def test_the_comment_says_what_was_not_read(house: SmallBook) -> None:
    result = run("diff", "spring", "--comment", recipes=house.root)
    assert (result.exit_code, result.stderr) == (1, "")
    assert "**Not read at spring:**\n\n- spring:recipes&#47;products&#47;clay.yml:9:13:" in result.stdout


def test_one_line_for_a_file_with_several_mistakes(house: SmallBook) -> None:
    house.write(CLAY_FILE, house.texts[CLAY_FILE].replace("450 g", "450 gr").replace("lifts: 5", "lifts: 50"))
    house.edit(FOIL_FILE, "500 pieces", "500 piecs")
    commit(house.root, tag="summer")
    house.write(CLAY_FILE, house.texts[CLAY_FILE].replace("450 gr", "450 g").replace("lifts: 50", "lifts: 5"))
    house.edit(FOIL_FILE, "500 piecs", "500 pieces")
    first, *lines = run("diff", "summer", recipes=house.root).stderr.splitlines()
    assert first == "Not read at summer:"
    assert [line.split(":")[1] for line in lines] == [f"recipes/{CLAY_FILE}", f"recipes/{FOIL_FILE}"]
    assert lines[0].endswith(" (and 1 more)")


def test_a_renamed_entry_that_could_not_be_read_is_not_new(house: SmallBook) -> None:
    text = house.texts[CLAY_FILE] + "formerly: [clay]\n"
    house.write("products/fine-clay.yml", text)
    (house.root / CLAY_FILE).unlink()
    house.edit(BLEND_FILE, "product: clay", "product: fine-clay")
    rows = json.loads(run("diff", "spring", "--json", recipes=house.root).stdout)
    states = {(each["kind"], each["id"]): each["state"] for each in rows}
    assert states["product", "fine-clay"] == "not compared"
    assert "new" not in states.values()


def test_an_entry_that_is_new_all_the_same(house: SmallBook) -> None:
    house.write("products/gloves.yml", house.texts[FOIL_FILE].replace("Foil, wide", "Gloves"))
    rows = json.loads(run("diff", "spring", "--json", recipes=house.root).stdout)
    assert {each["id"] for each in rows if each["state"] == "new"} == {"gloves"}


def test_a_house_that_could_not_be_read(house: SmallBook) -> None:
    house.edit(HOUSE_FILE, "5 %", "5 percent")
    commit(house.root, tag="summer")
    house.edit(HOUSE_FILE, "5 percent", "5 %")
    result = run("diff", "summer", recipes=house.root)
    assert (result.exit_code, result.stdout) == (1, "")
    assert f"summer:recipes/{HOUSE_FILE}:7:" in result.stderr
    comment = run("diff", "summer", "--comment", recipes=house.root).stdout
    assert "Nothing was compared." in comment and "Nothing changed" not in comment
