"""``bowlbook new book``: a folder that checks strictly and builds as it is left; nothing is overwritten."""

import re
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner

from bowlbook.commands import main, new_book
from bowlbook.pages.manual import manual_menu
from commands.run import invoke, run

ROOT = Path(__file__).parents[2]
LISBON = ["--title", "Sal e Luz", "--currency", "EUR", "--locale", "pt-PT", "--unit", "g", "--step", "0.1"]
OUNCES = ["--title", "Salt", "--currency", "USD", "--locale", "en-US", "--unit", "oz", "--step", "0.05"]
DUBLIN = ["--title=Salann", "--currency=EUR", "--locale=en-IE", "--unit=oz,g", "--step=0.05, 1"]
YEN = ["--title", "Shio", "--currency", "JPY", "--locale", "ja-JP", "--unit", "oz", "--step", "0.01"]


def begun(folder: Path, *words: str) -> Path:
    result = invoke(["new", "book", str(folder), *words])
    assert result.exit_code == 0, result.output
    return folder


def text_of(page: Path) -> str:
    """The words of a page's main column."""
    html = page.read_text(encoding="utf-8")
    return re.sub(r"<[^>]+>", " ", html[html.index("<article") : html.index("</article>")])


def titles(site: Path) -> list[str]:
    """The menu of the front page."""
    html = (site / "index.html").read_text(encoding="utf-8")
    menu = html[html.index('id="bb-menu"') :]
    return re.findall(r"<a href[^>]*>([^<]+)</a>", menu[: menu.index("</nav>")])


@pytest.mark.parametrize("house", [LISBON, OUNCES, DUBLIN, YEN], ids=["grams", "ounces", "both", "yen"])
@pytest.mark.parametrize("example", [[], ["--example"]], ids=["empty", "example"])
def test_it_checks_strictly_as_it_is_left(tmp_path: Path, house: list[str], example: list[str]) -> None:
    book = begun(tmp_path / "book", *house, *example)
    result = run("check", "--strict", recipes=book / "recipes")
    assert (result.exit_code, result.output) == (0, "0 errors, 0 warnings.\n")
    kinds = {
        each["kind"]
        for path in book.glob("recipes/products/*.yml")
        if (each := yaml.safe_load(path.read_text()))
    }
    assert kinds == ({"lightener", "developer", "toner", "additive", "supply"} if example else set())


def test_a_scale_with_two_units_has_a_step_for_each(tmp_path: Path) -> None:
    house = yaml.safe_load((begun(tmp_path, *DUBLIN) / "recipes/house.yml").read_text(encoding="utf-8"))
    assert house["scale_step"] == {"oz": 0.05, "g": 1} and list(house["batches"]) == ["oz", "g"]


def built(book: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(book)
    result = run("build", "--strict")
    assert result.exit_code == 0, result.output
    return book / "site"


def test_an_empty_book_shows_only_what_is_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    site = built(begun(tmp_path / "book", *LISBON), monkeypatch)
    assert titles(site) == ["Home", "When it goes wrong", "Safety in this house"]
    assert "No recipe is in this book yet." in text_of(site / "index.html")
    assert not (site / "reference").exists()


def test_the_menu_grows_with_the_book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    book = begun(tmp_path / "book", *LISBON, "--example")
    site = built(book, monkeypatch)
    there = ["Home", "Pick by hair", "By kind of hair", "Blends", "Try a blend", "Techniques"]
    there += ["When it goes wrong", "Products", "Cards to print", "Recent changes"]
    there += ["Costs", "Weighing", "Out of date", "Coverage"]
    assert titles(site) == [*there, "Safety in this house"]
    assert "No recipe" not in text_of(site / "index.html")
    notice = "The example entries are invented."
    assert notice in (site / "blends/example-foil-bowl/index.html").read_text(encoding="utf-8")


@pytest.mark.long
def test_the_manual_is_in_the_site_that_asks_for_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    book = begun(tmp_path / "book", *LISBON)
    config = book / "mkdocs.yml"
    config.write_text(config.read_text("utf-8").replace("# manual: true", "manual: true #"), encoding="utf-8")
    site = built(book, monkeypatch)
    listed = titles(site)
    assert listed[3:] == [title for title, _ in manual_menu()]
    assert (site / "reference/findings/zero-reading/index.html").is_file()


def test_nothing_is_overwritten(tmp_path: Path) -> None:
    (tmp_path / "mkdocs.yml").write_text("mine\n", encoding="utf-8")
    (tmp_path / ".gitignore").symlink_to("nowhere")
    result = invoke(["new", "book", str(tmp_path), *LISBON])
    assert result.exit_code == 1
    assert f"{tmp_path} has mkdocs.yml, .gitignore already; nothing was written." in result.stderr
    assert {each.name for each in tmp_path.iterdir()} == {"mkdocs.yml", ".gitignore"}
    assert (tmp_path / "mkdocs.yml").read_text(encoding="utf-8") == "mine\n"


def test_other_files_are_no_hindrance_and_stay(tmp_path: Path) -> None:
    (tmp_path / ".venv").mkdir()
    (tmp_path / "prices.xlsx").write_bytes(b"mine")
    begun(tmp_path, *LISBON)
    assert (tmp_path / "prices.xlsx").read_bytes() == b"mine" and (tmp_path / "recipes/house.yml").is_file()


def test_a_file_in_the_place_of_a_folder_leaves_nothing_behind(tmp_path: Path) -> None:
    (tmp_path / ".github").write_text("mine", encoding="utf-8")
    result = invoke(["new", "book", str(tmp_path), *LISBON])
    assert result.exit_code == 2 and "cannot be written" in result.stderr and "Traceback" not in result.stderr
    assert [path.name for path in tmp_path.rglob("*") if path.is_file()] == [".github"]


@pytest.mark.parametrize(
    "option, value, said",
    [
        ("--step", "0,1", "--step: There is one for g. Write one with a point, as 0.1."),
        ("--step", "-1", "--step: "),
        ("--unit", "kg", '--unit takes g, oz, or both as oz,g; not "kg".'),
        ("--unit", "g, g", "--unit takes g, oz"),
        ("--unit", "oz, g", "--step: There is one for oz and one for g. Write two"),
        ("--currency", "Euro", "--currency: "),
        ("--locale", "Portugal", "--locale: "),
        ("--on-scalp-limit", "20", "--on-scalp-limit: "),
        ("--title", "a\x07b", "--title: "),
    ],
)
def test_an_answer_that_the_house_would_not_take_is_refused_by_name(
    tmp_path: Path, option: str, value: str, said: str
) -> None:
    result = invoke(["new", "book", str(tmp_path / "book"), *LISBON, option, value])
    assert result.exit_code == 2 and said in result.stderr, result.output
    assert not (tmp_path / "book").exists()


def test_what_is_missing_is_named_where_nobody_can_be_asked(tmp_path: Path) -> None:
    result = invoke(["new", "book", str(tmp_path / "book"), "--title", "Sal"])
    assert result.exit_code == 2 and "Say --currency, --locale, --unit, --step." in result.stderr


def test_at_a_terminal_what_is_left_out_is_asked_and_a_slip_asked_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(new_book, "is_interactive", lambda: True)
    typed = "EUR\npt-PT\ng\n0,1\n0.1\n"
    result = CliRunner().invoke(main, ["new", "book", str(tmp_path / "b"), "--title", "Sal"], input=typed)
    assert result.exit_code == 0, result.output
    assert "scale_step: {g: 0.1}" in (tmp_path / "b/recipes/house.yml").read_text(encoding="utf-8")


def test_a_title_is_written_so_that_it_reads_back(tmp_path: Path) -> None:
    title = 'Sal & Luz: "Lisboa" #1'
    book = begun(tmp_path / "book", *LISBON, "--title", title)
    assert yaml.safe_load((book / "mkdocs.yml").read_text(encoding="utf-8"))["site_name"] == title
    assert yaml.safe_load((book / "recipes/house.yml").read_text(encoding="utf-8"))["title"] == title


def test_its_workflow_is_this_projects_with_the_released_program(tmp_path: Path) -> None:
    own = (ROOT / ".github/workflows/book.yml").read_text(encoding="utf-8")
    theirs = (begun(tmp_path / "book", *LISBON) / ".github/workflows/book.yml").read_text(encoding="utf-8")
    assert own.replace("install -q .\n", "install -q -r requirements.txt\n") == theirs


@pytest.mark.parametrize(
    "origin, line",
    [
        (None, "bowlbook=={}"),
        ('{"url": "file:///somewhere/bowlbook-0.1.0-py3-none-any.whl"}', "./bowlbook-0.1.0-py3-none-any.whl"),
        ('{"url": "file:///somewhere/bowlbook"}', "bowlbook=={}"),
        (
            '{"url": "https://files.example/b.whl", "archive_info": {}}',
            "bowlbook @ https://files.example/b.whl",
        ),
        (
            '{"url": "https://code.example/b", "vcs_info": {"vcs": "git", "commit_id": "1f"}}',
            "bowlbook @ git+https://code.example/b@1f",
        ),
    ],
)
def test_the_workflow_installs_from_where_the_program_came(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, origin: str | None, line: str
) -> None:
    """Forms: the specification of direct_url.json (PEP 610) and of direct references (PEP 508)."""

    class Installed:
        version = "9.9"

        @staticmethod
        def read_text(name: str) -> str | None:
            return origin

    monkeypatch.setattr(new_book, "distribution", lambda name: Installed)
    book = begun(tmp_path / "book", *LISBON)
    assert (book / "requirements.txt").read_text("utf-8").splitlines()[-1] == line.format("9.9")


def test_no_file_names_this_machine(tmp_path: Path) -> None:
    book = begun(tmp_path / "book", *LISBON)
    for path in (each for each in book.rglob("*") if each.is_file()):
        text = path.read_text(encoding="utf-8")
        assert str(ROOT) not in text and str(tmp_path) not in text
