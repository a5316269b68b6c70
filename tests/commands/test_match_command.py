"""``bowlbook match``: the answer in the terminal and as JSON, with reasons, for any description."""

from pathlib import Path

import pytest
from tests.browser.small_house import write_small_house

from bowlbook.book.current import current
from commands.run import refused, run, run_json


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The recipes of a house that says nothing of its own."""
    return write_small_house(tmp_path_factory.mktemp("match") / "recipes").root


def test_the_answer_in_words(recipes: Path) -> None:
    asked = ["--level", "4", "--lift", "4", "--texture", "coarse", "--tone", "cool", "--area", "lengths"]
    result = run("match", *asked, recipes=recipes)
    assert result.exit_code == 0
    lines = result.stdout.split("\n")
    assert lines[0].startswith("Go: Nothing that was said stops this head.")
    assert lines[2] == (
        "For natural level 4, target level 8, 4 levels of lift, coarse hair, the lengths, a cool wish."
    )
    assert "1. Cool foil for coarse dark hair, placed with Triangle in two foils" in result.stdout
    assert "Meant for natural level 4, 4 levels of lift, coarse hair" in result.stdout
    assert "Lifted to level 8 it shows yellow" in result.stdout
    assert "  Not:" in lines and "Instead: " in result.stdout
    assert "patch test" in result.stdout


@pytest.mark.parametrize(
    ("asked", "headings"),
    [
        (["--level", "7", "--lift", "2", "--history", "henna"], ["Only once the test is passed:"]),
        (
            ["--level", "7", "--lift", "2", "--person", "pregnant or nursing"],
            ["Only once whoever must be asked agrees, and the test is passed:"],
        ),
        (
            ["--level", "3", "--lift", "6", "--history", "henna"],
            ["Only once the test is passed:", "For the first visit, to level 5:"],
        ),
        # Hair lightened once gives two levels: four of the six today.
        (["--level", "3", "--lift", "6"], ["For the first visit, to level 7:"]),
        (["--level", "7", "--lift", "2"], []),
    ],
)
def test_answers_on_a_condition_stand_under_it(recipes: Path, asked: list[str], headings: list[str]) -> None:
    text = run("match", *asked, recipes=recipes).stdout
    found = [line for line in text.split("\n") if line.startswith(("Only once", "For the first"))]
    assert found == headings
    assert all(text.index(heading) < text.index("\nTake") for heading in headings)


def test_no_recipe_is_named_for_a_lift_that_cannot_be_planned(recipes: Path, demo_book) -> None:
    """Six levels from nobody knows where: more than one visit, and what the first can reach is not known."""
    text = run("match", "--lift", "6", recipes=recipes).stdout
    assert text.startswith("More than one visit: ") and "Say its level first" in text
    assert "\nTake" not in text and [name for name in demo_book.blends if name in text] == []


def test_json_has_every_candidate_with_its_reasons(recipes: Path, demo_book) -> None:
    data = run_json("match", "--level", "4", "--texture", "coarse", "--tone", "cool", recipes=recipes)
    blends = [each for each in data["answers"] if each["kind"] == "blend" and not each["tones"]]
    lightening = {entry_id for entry_id, blend in current(demo_book.blends).items() if not blend.tones}
    assert {each["id"] for each in blends} == lightening
    assert all(each["why"] or each["why_not"] or each["ask"] for each in data["answers"])
    first = data["answers"][0]
    assert (first["id"], first["suits"]) == ("cool-foil-coarse", True)
    refused = {each["id"]: each for each in blends if not each["suits"]}
    assert refused["warm-clay"]["instead"] == "cool-foil-coarse"


def test_json_has_the_head_as_it_was_asked(recipes: Path) -> None:
    """Every facet that was said, the condition too, and no level that was worked out from the others."""
    said = ["--level", "7", "--lift", "2", "--condition", "dry", "--history", "henna", "--weeks", "20"]
    data = run_json("match", *said, "--person", "medicine or illness", "--volume", "20", recipes=recipes)
    assert data["asked"] == {
        "natural_level": [7],
        "lift": [2],
        "condition": ["dry"],
        "history": ["henna"],
        "person": ["medicine or illness"],
        "weeks": [20],
        "volume": [20],
    }
    assert "level 9" in data["head"] and "dry hair" in data["head"]
    assert data["only_once"] == "Only once whoever must be asked agrees, and the test is passed"
    assert run_json("match", "--level", "7", "--lift", "2", recipes=recipes)["only_once"] is None


def test_several_values_of_one_facet(recipes: Path) -> None:
    data = run_json("match", "--level", "1-4", "--texture", "fine", "--texture", "medium", recipes=recipes)
    assert data["head"] == "natural level 1–4, fine or medium hair"


def test_what_does_not_go_together(recipes: Path) -> None:
    """More lift than there is room for is refused; a level that the hair has is a wish for tone."""
    asked = ("--level", "9", "--lift", "4")
    result = run("match", *asked, recipes=recipes)
    assert result.exit_code == 0 and result.stdout.startswith("Not today: The levels do not go together")
    assert run_json("match", *asked, recipes=recipes)["answers"] == []
    down = run_json("match", "--level", "7", "--to", "3", recipes=recipes)
    assert down["verdict"] == "tone only"
    assert down["answers"] and all(each["tones"] for each in down["answers"])


SHAPE = {"kind", "id", "tones", "placement", "developer", "volume", "cautions"}


def test_the_answer_has_the_shape_of_the_design(recipes: Path) -> None:
    asked = ("--level", "3", "--to", "9", "--texture", "coarse", "--tone", "neutral")
    data = run_json("match", *asked, recipes=recipes)
    assert next(iter(data)) == "verdict" and data["verdict"] == "more than one visit"
    assert [(each["to"], each["weeks_later"]) for each in data["visits"]] == [(7, 0), (9, 8)]
    assert [each["shows"] for each in data["visits"]] == ["yellow-orange", "pale yellow"]
    assert [each["tone_with"][0] for each in data["visits"]] == ["smoke-gloss", "pearl-gloss"]
    assert data["before"] and all(set(each) == {"do", "because", "standing"} for each in data["before"])
    assert all(set(each) >= SHAPE for each in data["answers"])
    assert {each["tones"] for each in data["answers"]} == {False, True}


@pytest.mark.parametrize(
    "said",
    [
        ("--person", "sore scalp"),
        ("--history", "relaxed", "--weeks", "2"),
        ("--condition", "dry", "--condition", "breaking"),
        ("--wearing", "extensions"),
        ("--heat",),
        ("--volume", "30", "--placement", "on-scalp"),
        ("--volume", "20", "--area", "hairline"),
    ],
    ids=" ".join,
)
def test_a_usual_stop_refuses(small: Path, said: tuple[str, ...]) -> None:
    """Ordinary hair with one thing said that stops it: no recipe at all; a refusal is an answer (exit 0).

    Each option once; every stop is tried in ``tests/figures/test_usual.py``.
    """
    data = run_json("match", "--level", "6", "--lift", "2", "--tone", "neutral", *said, recipes=small)
    assert data["verdict"] == "not today" and data["answers"] == [] and data["visits"] == []
    assert data["before"][0]["do"] and data["before"][0]["standing"].startswith("usual: ")
    assert data["reason"].startswith(data["before"][0]["do"])


@pytest.mark.parametrize(
    "said",
    [
        ("--person", "pregnant or nursing"),
        ("--history", "relaxed", "--weeks", "20"),
        ("--condition", "dry"),
    ],
    ids=" ".join,
)
def test_a_usual_test_comes_first(small: Path, said: tuple[str, ...]) -> None:
    data = run_json("match", "--level", "6", "--lift", "2", "--tone", "neutral", *said, recipes=small)
    assert data["verdict"] == "test first" and data["before"]
    if "relaxed" in said:
        assert all(each["volume"] <= 10 for each in data["answers"] if each["suits"] and not each["tones"])


def test_the_level_now_is_where_the_lift_starts(recipes: Path) -> None:
    """Naturally 4, lightened to 7: to 9 are two levels, and no wish but a tone is no lift."""
    said = ("--level", "4", "--now", "7", "--history", "previously lightened", "--weeks", "10")
    lift = run_json("match", *said, "--to", "9", recipes=recipes)
    assert "2 levels of lift" in lift["head"] and "level 7 now" in lift["head"]
    tone = run_json("match", *said, "--tone", "cool", recipes=recipes)
    assert tone["verdict"] == "tone only"
    assert [each["id"] for each in tone["answers"] if each["suits"]] == ["smoke-gloss"]
    none = run_json("match", "--level", "7", "--lift", "0", "--tone", "warm", recipes=recipes)
    assert none["verdict"] == "tone only"


def test_nothing_said_is_no_answer(recipes: Path) -> None:
    result = run("match", recipes=recipes)
    assert result.exit_code == 0 and "Nothing was said of the hair yet" in result.stdout
    assert not any(each["suits"] for each in run_json("match", recipes=recipes)["answers"])


def test_what_is_asked_next(recipes: Path) -> None:
    """What would overturn the answer comes before what would only narrow it; what was said is not asked."""
    data = run_json("match", "--level", "7", "--lift", "2", "--tone", "cool", recipes=recipes)
    verdicts = [each["verdict"] for each in data["ask"]]
    assert verdicts[:4] == ["not today"] * 4
    assert {each["facet"] for each in data["ask"]} >= {"person", "history", "condition", "wearing"}
    assert "tone" not in {each["facet"] for each in data["ask"]}
    assert any("virgin hair" in each for each in data["assumes"])


def test_instead_names_only_what_suits_this_head(recipes: Path) -> None:
    data = run_json("match", "--level", "4", "--texture", "fine", "--tone", "cool", recipes=recipes)
    suiting = {each["id"] for each in data["answers"] if each["suits"]}
    assert {each["instead"] for each in data["answers"]} - {None} <= suiting


def test_wrong_use(recipes: Path) -> None:
    assert 'Did you mean "coarse"?' in refused("match", "--texture", "corse", recipes=recipes)
    for words in ("--level 11", "--level dark", "--person child", "--weeks last", "--volume 0"):
        assert refused("match", *words.split(), recipes=recipes)
    both = refused("match", "--history", "virgin", "--history", "henna", recipes=recipes)
    assert "leave virgin out" in both


def test_each_answer_has_developer_volume_cautions_and_placement(small: Path) -> None:
    """The technique mixes with 40 volume what its blend writes with 20: both are named where they count."""
    asked = ("--level", "4", "--texture", "coarse")
    found = {(each["kind"], each["id"]): each for each in run_json("match", *asked, recipes=small)["answers"]}
    said = {
        key: tuple(each[name] for name in ("tones", "placement", "developer", "volume", "cautions"))
        for key, each in found.items()
    }
    hot, scalp = "Open the hottest foil first.", "Keep two fingers off the scalp."
    assert said[("blend", "violet")] == (False, ["foil"], "developer-20", 20, [hot])
    assert said[("pair", "violet")] == (False, ["foil"], "developer-40", 40, [hot, scalp])
    assert said[("technique", "wide-foils")] == (False, ["foil"], "developer-40", 40, [scalp, hot])
    text = run("match", *asked, recipes=small).stdout
    lines = [line.strip() for line in text.split("\n")]
    start = lines.index("1. Violet in foil, placed with Wide foils")
    assert lines[start + 1 : start + 4] == [
        "With Strong cream, 40 volume; foil. At most 45 minutes, first check after 5.",
        f"Caution: {hot}",
        f"Caution: {scalp}",
    ]
