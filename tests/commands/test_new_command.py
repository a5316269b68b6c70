"""``bowlbook new``: every kind starts as an entry that passes the check; odd names are kept or refused."""

import json
import os
import string
from pathlib import Path

import pytest
from checks.small_book import BLEND_FILE, HOUSE_FILE, TECHNIQUE_FILE, SmallBook
from hypothesis import given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from commands.run import run, run_json
from generator.commands.new import KINDS, STARTS

NEEDED = {
    "house": (),
    "lightener": ("house",),
    "developer": ("house",),
    "toner": ("house",),
    "additive": ("house",),
    "supply": ("house",),
    "blend": ("house", "lightener", "developer"),
    "technique": ("house", "lightener", "developer", "blend"),
    "situation": ("house", "lightener", "developer", "blend"),
    "class": ("house", "lightener", "developer", "blend", "technique"),
}


def errors(root: Path) -> list[str]:
    rows = run("check", "--json", recipes=root)
    assert rows.exit_code in (0, 1)
    return [f"{row['path']}: {row['code']}" for row in json.loads(rows.stdout) if row["severity"] == "error"]


def test_every_kind_is_tried_here() -> None:
    assert tuple(NEEDED) == KINDS
    assert {path.stem for path in STARTS.glob("*.yml")} == set(KINDS)


@pytest.mark.parametrize("kind", KINDS)
def test_a_fresh_book_with_one_of_a_kind(tmp_path: Path, kind: str) -> None:
    root = tmp_path / "recipes"
    for each in (*NEEDED[kind], kind):
        result = run("new", each, f"My {each}", recipes=root)
        assert result.exit_code == 0, result.output
        assert result.stdout.startswith("Wrote ")
        assert errors(root) == []


def test_all_kinds_in_one_fresh_book_warn_of_nothing_but_what_is_unused(tmp_path: Path) -> None:
    root = tmp_path / "recipes"
    for kind in KINDS:
        assert run("new", kind, f"My {kind}", recipes=root).exit_code == 0
    rows = run_json("check", recipes=root)
    assert {row["code"] for row in rows} == {"no-hair-amounts", "unused-entry"}
    assert {Path(row["path"]).stem for row in rows} == {"house", "my-toner", "my-additive", "my-supply"}
    assert len(list(root.rglob("*.yml"))) == len(KINDS)


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "house"])
def test_a_second_one_in_a_book_that_has_recipes(book: SmallBook, kind: str) -> None:
    assert run("new", kind, f"My {kind}", recipes=book.root).exit_code == 0
    assert errors(book.root) == []


@pytest.mark.parametrize("placement", ["on-scalp", "foil"])
def test_what_it_refers_to_may_go_elsewhere(book: SmallBook, placement: str) -> None:
    """A technique and a blend that start from on-scalp or foil recipes pass as well."""
    for path in [path for path in book.texts if "placement: " in book.texts[path]]:
        text = book.texts[path].replace("[open-air, foil]", "[open-air]").replace("open-air", placement)
        if path in (BLEND_FILE, TECHNIQUE_FILE):
            text += "cautions: [Check every five minutes.]\n"
        book.write(path, text)
    assert errors(book.root) == []
    for kind in ("blend", "technique", "situation"):
        assert run("new", kind, f"My {kind}", recipes=book.root).exit_code == 0
        assert errors(book.root) == []


def test_a_start_explains_itself(tmp_path: Path) -> None:
    for kind in KINDS:
        run("new", kind, f"My {kind}", recipes=tmp_path)
    for path in tmp_path.rglob("*.yml"):
        lines = path.read_text(encoding="utf-8").split("\n")
        assert lines[0].startswith("# yaml-language-server: $schema=../")
        assert lines[1].startswith("# ")
        assert "$" not in "\n".join(lines[1:])


def test_the_day_is_the_one_of_source_date_epoch(book: SmallBook, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1767225600")  # 2026-01-01T00:00:00Z
    run("new", "blend", "Mine", recipes=book.root)
    assert "on: 2026-01-01," in (book.root / "blends/mine.yml").read_text(encoding="utf-8")


@pytest.mark.parametrize("kind", ["house", "supply", "blend"])
def test_it_never_overwrites(book: SmallBook, kind: str) -> None:
    run("new", kind, "Mine", recipes=book.root)
    before = {path: path.read_bytes() for path in book.root.rglob("*.yml")}
    result = run("new", kind, "Mine", recipes=book.root)
    assert result.exit_code == 1
    assert "is there already; nothing was written" in result.stderr
    assert {path: path.read_bytes() for path in book.root.rglob("*.yml")} == before
    assert before[book.root / HOUSE_FILE].startswith(b"title: Small book\n")


NAMES = [
    'The "cool" one',
    "It's fine",
    "'quoted'",
    "a: b",
    "a #b",
    "- dash",
    "? what",
    "# hash",
    "[brackets]",
    "{braces}",
    "& and *",
    "!tag",
    "%directive",
    "@at `tick`",
    "null",
    "Null",
    "~ about",
    "true",
    "no",
    "12:30",
    "1.10",
    "0x1F",
    "2026-10-02",
    "$name and ${today}",
    "100 % cool",
    "back\\slash",
    "Crème brûlée",
    "naïve – soft",
    "Nº 3 ½",
    "  spaces   inside  ",
    "a, b",
    "ends:",
    "--flag",
]


@pytest.mark.parametrize("name", NAMES)
def test_an_odd_name_is_kept_as_it_is(book: SmallBook, name: str) -> None:
    result = run("new", "supply", "--id", "odd", "--", name, recipes=book.root)
    assert result.exit_code == 0, result.output
    assert errors(book.root) == []
    text = (book.root / "products/odd.yml").read_text(encoding="utf-8")
    assert YAML(typ="safe", pure=True).load(text)["name"] == " ".join(name.split())


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("<b>bold</b>", "A name has no < or > in it."),
        ("<<", "A name has no < or > in it."),
        ("\U0001f642\U0001f642", "at least one letter or digit"),
        ("!!! ---", "at least one letter or digit"),
        ("", "empty"),
        ("   ", "empty"),
        ("x" * 81, "81 characters"),
        ("漂白", "--id"),
        ("con", "--id"),
        ("index", "--id"),
    ],
)
def test_a_name_that_cannot_be(book: SmallBook, name: str, says: str) -> None:
    before = sorted(book.root.rglob("*"))
    result = run("new", "supply", name, recipes=book.root)
    assert result.exit_code == 2
    assert says in " ".join(result.stderr.split())
    assert sorted(book.root.rglob("*")) == before


def test_a_name_without_latin_letters_takes_an_id(book: SmallBook) -> None:
    assert run("new", "supply", "漂白", "--id", "piao-bai", recipes=book.root).exit_code == 0
    assert errors(book.root) == []


@pytest.mark.parametrize("wrong", ["Two Words", "-dash", "a--b", "../up", "a/b", "con", "x" * 61, "a.yml"])
def test_an_id_that_cannot_be(book: SmallBook, wrong: str) -> None:
    before = sorted(book.root.rglob("*"))
    result = run("new", "supply", "Fine", "--id", wrong, recipes=book.root)
    assert result.exit_code == 2
    assert sorted(book.root.rglob("*")) == before


@pytest.mark.parametrize(
    ("kind", "says"),
    [
        ("blend", "no house yet"),
        ("technique", "no house yet"),
        ("class", "no house yet"),
    ],
)
def test_without_a_house(tmp_path: Path, kind: str, says: str) -> None:
    result = run("new", kind, "Mine", recipes=tmp_path)
    assert result.exit_code == 2
    assert says in result.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("kind", "says"),
    [
        ("blend", "needs a lightener and a developer"),
        ("technique", "needs a blend"),
        ("situation", "needs a blend"),
        ("class", "need a technique"),
    ],
)
def test_without_what_it_refers_to(tmp_path: Path, kind: str, says: str) -> None:
    run("new", "house", "Mine", recipes=tmp_path)
    result = run("new", kind, "Mine", recipes=tmp_path)
    assert result.exit_code == 2
    assert says in " ".join(result.stderr.split())


def test_wrong_use(book: SmallBook) -> None:
    assert run("new", "bowl", "Mine", recipes=book.root).exit_code == 2
    assert run("new", "blend", recipes=book.root).exit_code == 2


@pytest.fixture(scope="module")
def a_book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book with nothing but its house."""
    root = tmp_path_factory.mktemp("any") / "recipes"
    assert run("new", "house", "Mine", recipes=root).exit_code == 0
    return root


@given(
    name=st.one_of(
        st.text(max_size=30),
        st.text("\x00\x07\x1b\x7f\x85\xa0\u200b\u2028\u202e\ufeff\ud800\U000e0041aé<>:\"'#-\\$", max_size=12),
        st.text(string.punctuation + "abc ", max_size=20),
    )
)
@settings(max_examples=150 if os.environ.get("BOWLBOOK_LONG") else 50, deadline=None)
def test_any_name_is_kept_or_refused(a_book: Path, name: str) -> None:
    made = a_book / "products/any.yml"
    result = run("new", "supply", "--id", "any", "--", name, recipes=a_book)
    if result.exit_code:
        assert result.exit_code == 2
        assert not made.exists()
        return
    try:
        assert errors(a_book) == []
        text = made.read_text(encoding="utf-8")
        assert YAML(typ="safe", pure=True).load(text)["name"] == " ".join(name.split())
    finally:
        made.unlink()
