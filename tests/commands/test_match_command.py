"""``bowlbook match``: the answer in the terminal and as JSON, with reasons, for any description."""

from pathlib import Path

from tests.browser.small_house import write_small_house

from commands.run import run, run_json


def test_the_answer_in_words(recipes: Path) -> None:
    asked = ["--level", "4", "--lift", "4", "--texture", "coarse", "--tone", "cool", "--area", "lengths"]
    result = run("match", *asked, recipes=recipes)
    assert result.exit_code == 0
    lines = result.stdout.split("\n")
    assert lines[0] == (
        "For natural level 4, lifting to level 8, 4 levels of lift, coarse hair, the lengths, a cool wish:"
    )
    assert "1. Cool foil for coarse dark hair, placed with Triangle in two foils" in result.stdout
    assert "Meant for natural level 4, 4 levels of lift, coarse hair" in result.stdout
    assert "Lifted to level 8 it shows yellow" in result.stdout
    assert "  Not:" in lines and "Instead: " in result.stdout
    assert "patch test" in result.stdout


def test_json_has_every_candidate_with_its_reasons(recipes: Path, demo_book) -> None:
    data = run_json("match", "--level", "4", "--texture", "coarse", "--tone", "cool", recipes=recipes)
    blends = [each for each in data["answers"] if each["kind"] == "blend"]
    lightening = {entry_id for entry_id, blend in demo_book.blends.items() if not blend.tones}
    assert {each["id"] for each in blends} == lightening
    assert all(each["why"] or each["why_not"] or each["ask"] for each in data["answers"])
    first = data["answers"][0]
    assert (first["id"], first["suits"]) == ("cool-foil-coarse", True)
    refused = {each["id"]: each for each in blends if not each["suits"]}
    assert refused["warm-clay"]["instead"] == "cool-foil-coarse"


def test_several_values_of_one_facet(recipes: Path) -> None:
    data = run_json("match", "--level", "1-4", "--texture", "fine", "--texture", "medium", recipes=recipes)
    assert data["head"] == "natural level 1–4, fine or medium hair"


def test_what_does_not_go_together(recipes: Path) -> None:
    result = run("match", "--level", "9", "--to", "7", recipes=recipes)
    assert result.exit_code == 0 and "do not go together" in result.stdout
    assert run_json("match", "--level", "9", "--lift", "4", recipes=recipes)["answers"] == []


def test_wrong_use(recipes: Path) -> None:
    wrong = run("match", "--texture", "corse", recipes=recipes)
    assert wrong.exit_code == 2 and 'Did you mean "coarse"?' in wrong.stderr
    assert run("match", "--level", "11", recipes=recipes).exit_code == 2
    assert run("match", "--level", "dark", recipes=recipes).exit_code == 2


def test_each_answer_has_developer_volume_cautions_and_placement(tmp_path: Path) -> None:
    """The technique mixes with 40 volume what its blend writes with 20: both are named where they count."""
    book = write_small_house(tmp_path / "recipes").root
    asked = ("--level", "4", "--texture", "coarse")
    found = {(each["kind"], each["id"]): each for each in run_json("match", *asked, recipes=book)["answers"]}
    said = {
        key: tuple(each[name] for name in ("tones", "placement", "developer", "volume", "cautions"))
        for key, each in found.items()
    }
    hot, scalp = "Open the hottest foil first.", "Keep two fingers off the scalp."
    assert said[("blend", "violet")] == (False, ["foil"], "developer-20", 20, [hot])
    assert said[("pair", "violet")] == (False, ["foil"], "developer-40", 40, [hot, scalp])
    assert said[("technique", "wide-foils")] == (False, ["foil"], "developer-40", 40, [scalp, hot])
    text = run("match", *asked, recipes=book).stdout
    lines = [line.strip() for line in text.split("\n")]
    start = lines.index("1. Violet in foil, placed with Wide foils")
    assert lines[start + 1 : start + 4] == [
        "With Strong cream, 40 volume; foil.",
        f"Caution: {hot}",
        f"Caution: {scalp}",
    ]
