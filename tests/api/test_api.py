"""The library as its user calls it."""

import json
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest

import bowlbook
from bowlbook.figures.bowl import CannotWeigh
from bowlbook.reading.amount import Mass
from checks.small_book import BLEND_FILE, DEVELOPER, SmallBook


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small book's folder with a second developer, which its blend does not use; only read here."""
    book = SmallBook(tmp_path_factory.mktemp("api") / "recipes")
    book.write("products/developer-10.yml", DEVELOPER.replace("20\n", "10\n").replace("6 %", "3 %"))
    return book.root


@pytest.fixture(scope="module")
def book(folder: Path):
    return bowlbook.read_book(folder)


def test_amounts_and_entries_may_be_given_as_text_or_as_values(book) -> None:
    wanted = bowlbook.mix(book, "soft-clay", "1 oz", developer="developer-20")
    blend, developer = book.blends["soft-clay"], book.products["developer-20"]
    assert bowlbook.mix(book, blend, Mass(Fraction(1), "oz"), developer=developer) == wanted
    assert bowlbook.mix(book, "soft-clay", "1 kg").unit == "g"
    assert bowlbook.mix(book, "soft-clay", "1 lb").batch == 16


def test_the_step_is_the_house_s_unless_given(book) -> None:
    assert bowlbook.mix(book, "soft-clay", "40 g").step == 1
    assert bowlbook.mix(book, "soft-clay", "40 g", step="0.1 g").step == Fraction(1, 10)


@pytest.mark.parametrize(
    ("call", "error", "words"),
    [
        (lambda book: bowlbook.mix(book, "soft-cley", "1 oz"), LookupError, 'Did you mean "soft-clay"'),
        (lambda book: bowlbook.mix(book, "soft-clay", "1"), ValueError, "the unit is missing"),
        (lambda book: bowlbook.mix(book, "soft-clay", "1 oz", step="1 g"), ValueError, "Give both in oz"),
        (
            lambda book: bowlbook.mix(book, "soft-clay", "1 oz", developer="x"),
            LookupError,
            "not a developer of",
        ),
        (lambda book: bowlbook.mix(book, "soft-clay", "0.01 oz", step="0.5 oz"), CannotWeigh, "read zero"),
        (lambda book: bowlbook.plan(book, "x"), LookupError, 'no technique "x"'),
        (lambda book: bowlbook.plan(book, "painting", length="huge"), LookupError, "not a length"),
        (lambda book: bowlbook.plan(book, "painting", length="long"), ValueError, "not measured"),
        (lambda book: bowlbook.match(book, {"textur": "fine"}), LookupError, 'Did you mean "texture"'),
        (lambda book: bowlbook.match(book, {"texture": "curse"}), LookupError, 'Did you mean "coarse"'),
        (lambda book: bowlbook.match(book, {"lift": "3-12"}), ValueError, "from 0 to 9"),
        (lambda book: bowlbook.match(book, {"lift": ["0", "2"]}), ValueError, "say it alone"),
        (lambda book: bowlbook.match(book, {"history": ["virgin", "henna"]}), ValueError, "leave virgin out"),
    ],
)
def test_wrong_use_says_what_is_wrong(book, call, error: type[Exception], words: str) -> None:
    with pytest.raises(error, match=words):
        call(book)


def test_a_developer_that_the_blend_does_not_allow_is_refused(book) -> None:
    """Also given as a value: no bowl is computed that the recipe does not describe."""
    with pytest.raises(bowlbook.UnknownName, match="developer-10"):
        bowlbook.mix(book, "soft-clay", "1 oz", developer=book.products["developer-10"])


def test_a_head_is_answered_as_on_the_command_line(demo_book) -> None:
    """The same verdict, stops, visits, questions and recipes as ``bowlbook match --json``."""
    from click.testing import CliRunner

    from bowlbook.commands.match import command
    from bowlbook.wording.verdict import before_of

    asked = {
        "natural_level": "2",
        "now": "4",
        "target_level": "9",
        "history": ["previously coloured"],
        "weeks": "7",
    }
    options = ["--level", "2", "--now", "4", "--to", "9", "--history", "previously coloured", "--weeks", "7"]
    recipes = str(Path(__file__).parents[2] / "recipes")
    done = CliRunner().invoke(command, ["--recipes", recipes, "--json", *options], catch_exceptions=False)
    printed = json.loads(done.output)
    answer = bowlbook.match(demo_book, asked)
    assert answer.verdict == printed["verdict"]
    assert [each._asdict() for each in before_of(answer.consultation)] == printed["before"]
    assert answer.stops and {each.do for each in answer.stops} <= {each["do"] for each in printed["before"]}
    assert [each.to for each in answer.visits] == [each["to"] for each in printed["visits"]]
    assert len(answer.visits) > 1
    assert [each.facet for each in answer.questions] == [each["facet"] for each in printed["ask"]]
    assert [(each.candidate.id, each.candidate.within) for each in answer.suiting] == [
        (each["id"], each["within"]) for each in printed["answers"] if each["suits"]
    ]


@pytest.mark.parametrize(
    "head",
    [
        {"natural_level": 6, "condition": "breaking"},
        {"natural_level": 6, "person": "reaction to lightener"},
        {"natural_level": 6, "history": "metallic dye"},
    ],
)
def test_a_stop_leaves_no_recipe(demo_book, head: dict[str, object]) -> None:
    answer = bowlbook.match(demo_book, head)
    assert answer.verdict == "not today" and answer.stops[0].effect == "stop" and answer.stops[0].because
    assert answer.suiting == () and answer.lightening is None and answer.toning is None


def test_spans_numbers_and_lists_say_the_same(demo_book) -> None:
    wanted = bowlbook.match(demo_book, {"natural_level": "6-7", "texture": ["fine", "medium"]})
    assert wanted.suiting and wanted.verdict == "go"
    assert bowlbook.match(demo_book, {"natural_level": ["6", "7"], "texture": ["medium", "fine"]}) == wanted
    assert bowlbook.match(demo_book, {"natural_level": 6}) != wanted


def test_a_book_with_an_error_is_not_returned(tmp_path: Path) -> None:
    spoilt = SmallBook(tmp_path / "recipes")
    spoilt.write(BLEND_FILE, spoilt.texts[BLEND_FILE].replace("developer-20", "developer-99"))
    with pytest.raises(bowlbook.InvalidBook, match="unknown-id") as found:
        bowlbook.read_book(spoilt.root)
    assert [each.code for each in found.value.findings if each.severity == "error"] == ["unknown-id"]


def test_reading_writes_no_cache(folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path / "cache"))
    before = sorted(folder.rglob("*"))
    bowlbook.plan(bowlbook.read_book(folder), "painting")
    assert not (tmp_path / "cache").exists() or not any((tmp_path / "cache").rglob("*"))
    assert sorted(folder.rglob("*")) == before


def test_importing_the_package_loads_none_of_its_rooms() -> None:
    """A command's start pays for the public functions only if it uses them."""
    code = "import sys, bowlbook; print([each for each in sys.modules if each.startswith('bowlbook.')])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_a_prompt_completes_the_public_names() -> None:
    import bowlbook

    assert set(bowlbook.__all__) <= set(dir(bowlbook))


def test_no_other_name_is_made_up() -> None:
    with pytest.raises(AttributeError, match="no attribute 'reckon'"):
        bowlbook.reckon  # noqa: B018 - looking the name up is what is tried
