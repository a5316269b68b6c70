"""``bowlbook export``: the whole book, nothing private unasked, and back again with the same figures.

Sources: jsonschema (JSON Schema draft 2020-12) checks the document; Python's csv module (RFC 4180) reads the
tables.
"""

import csv
import json
import re
import shutil
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from bowlbook.book.folder import FOLDERS
from bowlbook.book.read_book import read_book
from bowlbook.exporting.book_data import exact
from commands.run import run


@pytest.fixture(scope="module")
def document(recipes: Path) -> Any:
    result = run("export", "--json", "--private", recipes=recipes)
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


@pytest.fixture(scope="module")
def folder(recipes: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("export") / "tables"
    assert run("export", "--csv", "--private", "--out", str(out), recipes=recipes).exit_code == 0
    return out


def rows_of(folder: Path, name: str) -> list[dict[str, str]]:
    with (folder / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def few_of(document: Any) -> Any:
    """A document with the first few of each kind."""
    return {key: each[:5] if isinstance(each, list) else each for key, each in document.items()}


@pytest.mark.long
def test_the_document_is_as_its_schema_says(recipes: Path, document: Any) -> None:
    schema = json.loads(run("export", "--schema", recipes=recipes).stdout)
    Draft202012Validator.check_schema(schema)
    checker = Draft202012Validator(schema)
    assert [each.message for each in checker.iter_errors(document)] == []
    public = few_of(json.loads(run("export", "--json", recipes=recipes).stdout))
    assert [each.message for each in checker.iter_errors(public)] == []
    assert document["version"] == 1
    broken = few_of(json.loads(json.dumps(document)))
    del broken["blends"][0]["developer"]["ratio"]
    assert list(checker.iter_errors(broken))


ESCAPED = re.compile(r"\\(.)")
ALLOWED = set("^$\\.*+?()[]{}|/dDsSwWbBfnrtv0123456789cxupP-")
"""What may stand behind a backslash (ECMA-262, 2024, 22.2.1, with the flag u; - in a class alone)."""


def test_every_editor_can_read_the_patterns() -> None:
    """A checker of documents refuses the whole schema where one pattern escapes what needs no escape."""
    found = run("export", "--schema").stdout
    patterns: list[str] = []

    def keep(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        patterns.extend(value for key, value in pairs if key == "pattern" and isinstance(value, str))
        return dict(pairs)

    json.loads(found, object_pairs_hook=keep)
    assert len(patterns) > 20
    assert [each for each in patterns if set(ESCAPED.findall(each)) - ALLOWED] == []


def test_every_entry_is_in_it(recipes: Path, document: Any, folder: Path) -> None:
    for name in FOLDERS:
        ids = {path.stem for path in (recipes / name).glob("*.yml")}
        assert {each["id"] for each in document[name]} == ids
        assert {row["id"] for row in rows_of(folder, name)} == ids


def test_nothing_private_without_asking(recipes: Path, document: Any) -> None:
    public = run("export", "--json", recipes=recipes).stdout
    private = {
        product["pack"].get(key)
        for product in document["products"]
        if "pack" in product
        for key in ("supplier",)
    }
    private |= {each["reviewed"]["by"] for each in document["blends"] if "reviewed" in each}
    private |= {each["private"] for name in FOLDERS for each in document[name] if "private" in each}
    assert len(private) > 5
    assert [text for text in private if text and json.dumps(text, ensure_ascii=False) in public] == []
    for key in ('"price"', '"cost"', '"by"', '"private"', '"supplier"'):
        assert key not in public


def test_exact_figures(document: Any) -> None:
    """By hand: 2 of 3 parts of half an ounce are 1/3 oz; 6 % of the developer's 2 in 3 is 4 %."""
    bowl = next(
        each
        for each in document["bowls"]
        if (each["blend"], each["developer"], each["batch"]) == ("cool-foil-coarse", "developer-20", "0.5 oz")
    )
    assert [pour["exact"] for pour in bowl["pours"]] == ["1/3", "1/6", "1"]
    assert [pour["weigh"] for pour in bowl["pours"]] == ["0.33", "0.17", "1.00"]
    assert bowl["peroxide_percent"] == "4"
    assert [exact(each) for each in (Fraction(1, 3), Fraction(5, 8), Fraction(40))] == ["1/3", "0.625", "40"]


def test_tables_back_into_a_new_book_give_the_same_entries_and_figures(
    recipes: Path, folder: Path, tmp_path: Path, document: Any
) -> None:
    new = tmp_path / "recipes"
    new.mkdir()
    shutil.copy(recipes / "house.yml", new)
    for name in ("products", "blends"):
        result = run("import", str(folder / f"{name}.csv"), "--json", recipes=new)
        assert result.exit_code == 0, json.loads(result.stdout)["findings"]
    before, after = read_book(recipes).book, read_book(new).book
    assert before is not None and after is not None
    for name in ("products", "blends"):
        was, now = (dict(getattr(book, name).items()) for book in (before, after))
        assert now == was
    again = json.loads(run("export", "--json", "--private", recipes=new).stdout)
    assert again["bowls"] == document["bowls"] and len(again["bowls"]) > 50


def test_nothing_is_written_over(recipes: Path, tmp_path: Path) -> None:
    file, out = tmp_path / "book.json", tmp_path / "tables"
    file.write_text("mine", encoding="utf-8")
    out.mkdir()
    for words in (("--json", "--out", str(file)), ("--csv", "--out", str(out))):
        result = run("export", *words, recipes=recipes)
        assert result.exit_code == 1 and "is there already" in result.stderr
    assert file.read_text(encoding="utf-8") == "mine" and not list(out.iterdir())


@pytest.mark.parametrize("words", [(), ("--json", "--csv"), ("--csv",)])
def test_wrong_use(recipes: Path, words: tuple[str, ...]) -> None:
    assert run("export", *words, recipes=recipes).exit_code == 2
