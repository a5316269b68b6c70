"""``bowlbook new``: a start with gaps for all that is of the trade; odd names are kept or refused."""

import json
import os
import re
import signal
import string
import sys
import threading
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from bowlbook.commands.group import PROGRAM
from bowlbook.commands.new import START_KINDS
from bowlbook.commands.start import STARTS
from checks.small_book import BLEND_FILE, HOUSE_FILE, SmallBook
from commands.filled import FILLED, begin_every_kind, filled_in
from commands.run import refused, run, run_json


def errors(root: Path) -> list[str]:
    rows = run("check", "--json", recipes=root)
    assert rows.exit_code in (0, 1)
    return [f"{row['path']}: {row['code']}" for row in json.loads(rows.stdout) if row["severity"] == "error"]


def test_every_kind_is_tried_here() -> None:
    assert tuple(FILLED) == START_KINDS
    assert {path.stem for path in STARTS.glob("*.yml")} == set(START_KINDS)


def test_filled_in_they_warn_of_nothing_but_what_is_unused(tmp_path: Path) -> None:
    root = tmp_path / "recipes"
    assert len(begin_every_kind(root)) == len(START_KINDS)
    rows = run_json("check", recipes=root)
    assert {row["code"] for row in rows} == {"no-hair-amounts", "unused-entry"}
    assert {Path(row["path"]).stem for row in rows} == {"house", "my-toner", "my-additive", "my-supply"}


def test_left_alone_every_gap_is_listed_in_one_run_and_nothing_else(tmp_path: Path) -> None:
    root = tmp_path / "recipes"
    for kind in START_KINDS:
        result = run("new", kind, f"My {kind}", recipes=root)
        assert result.exit_code == 0, result.output
        assert ("Still to fill in: " in result.stdout) == bool(FILLED[kind])
        assert all(field in result.stdout for field in FILLED[kind])
    rows = json.loads(run("check", "--json", recipes=root).stdout)
    assert {row["code"] for row in rows} == {"not-filled-in"}
    assert len(rows) == sum(map(len, FILLED.values()))
    assert {row["message"] for row in rows} >= {"Not filled in yet: volume.", "Not filled in yet: ratio."}


def test_a_gap_stops_a_build_and_a_bowl(book: SmallBook, tmp_path: Path) -> None:
    (tmp_path / "mkdocs.yml").write_text("site_name: A book\n", encoding="utf-8")
    assert run("new", "developer", "Forty", recipes=book.root).exit_code == 0
    built = run(
        "build", f"--config={tmp_path / 'mkdocs.yml'}", f"--site={tmp_path / 'site'}", recipes=book.root
    )
    assert built.exit_code == 1 and "not-filled-in" in built.stderr
    assert not (tmp_path / "site").exists()


@pytest.mark.parametrize("kind", [kind for kind in START_KINDS if kind != "house"])
def test_a_start_states_nothing_of_the_trade(tmp_path: Path, kind: str) -> None:
    """No figure but the day, not even in a remark that somebody may take the # from; no word of a list."""
    root = tmp_path / "recipes"
    run("new", kind, "Mine", recipes=root)
    (path,) = root.rglob("*.yml")
    data = YAML(typ="safe", pure=True).load(path.read_text(encoding="utf-8"))
    known = {"name", "kind", "hazards", "on", "change"}
    texts = [value for key, value in leaves(data) if key not in known]
    assert set(texts) <= {"???"}
    remarks = re.findall(r"(?m)^ *#(?: +-)? +\w+: (\S.*?)(?:  |$)", path.read_text(encoding="utf-8"))
    assert set(remarks) - {"???"} <= {"2026-11-25"}


def leaves(value: object, key: str = "") -> list[tuple[str, object]]:
    """Every single value, with the last key before it."""
    if isinstance(value, dict):
        return [leaf for name, inner in value.items() for leaf in leaves(inner, name)]
    if isinstance(value, list):
        return [leaf for inner in value for leaf in leaves(inner, key)]
    return [(key, value)]


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ("volume=x", "volume: This is not a developer strength"),
        ("volume=200", "200 volume cannot be right here"),
        ("vol=20", 'Did you mean "volume"?'),
        ("name=Other", '"name" is no gap of this start'),
        ("volume", "FIELD=VALUE"),
        ("volume=", "FIELD=VALUE"),
        ("volume=20\nkind: toner", "volume"),
        ("peroxide=six", "peroxide: This is not a percentage"),
        ("density=[1]", "density"),
    ],
)
def test_a_value_that_cannot_be(book: SmallBook, given: str, says: str) -> None:
    before = sorted(book.root.rglob("*"))
    assert says in refused("new", "developer", "Mine", "--set", given, recipes=book.root)
    assert sorted(book.root.rglob("*")) == before


def test_given_values_stand_where_the_gaps_were(book: SmallBook) -> None:
    words = ["--set=volume=40", "--set", "peroxide=12 %", "--set", "density = 1.02 g/mL"]
    assert run("new", "developer", "Developer 40 volume", *words, recipes=book.root).exit_code == 0
    text = (book.root / "products/developer-40-volume.yml").read_text(encoding="utf-8")
    assert YAML(typ="safe", pure=True).load(text) == {
        "name": "Developer 40 volume",
        "kind": "developer",
        "volume": 40,
        "peroxide": "12 %",
        "density": "1.02 g/mL",
        "hazards": ["Burns skin and eyes. Gloves, eyes protected."],
    }
    assert errors(book.root) == []


@pytest.mark.parametrize(
    "text", ["Never above #2: ask", "# all", "[", "yes: no", "'", '"x', "{a: b}", "- x", "é"]
)
def test_an_odd_text_is_kept_as_it_is_given(book: SmallBook, text: str) -> None:
    assert run("new", "additive", "Mine", "--set", f"does={text}", recipes=book.root).exit_code == 0
    written = (book.root / "products/mine.yml").read_text(encoding="utf-8")
    assert YAML(typ="safe", pure=True).load(written)["does"] == text
    assert errors(book.root) == []


def test_at_a_terminal_each_gap_is_asked_for(book: SmallBook) -> None:
    """One answer that cannot be is asked again; an empty one leaves the gap."""
    pty = pytest.importorskip("pty")
    child, terminal = pty.fork()
    if child == 0:
        words = ["new", "toner", "Mine", "--recipes", str(book.root)]
        os.execv(sys.executable, [*PROGRAM, *words])
    late = threading.Timer(60, os.kill, (child, signal.SIGKILL))  # a question that never comes is a failure
    late.daemon = True
    late.start()
    said = b""

    def more() -> bytes:
        piece = os.read(terminal, 4096)  # fails on Linux where the other end is closed
        assert piece, said
        return piece

    for asks, answer in (
        (b"form (", "gell"),
        (b'Did you mean "gel"?', "gel"),
        (b"tone (", "[cool, neutral]"),
        (b"usual (", "1:2"),
        (b"developer_limit (", ""),
    ):
        said = said[-1:]
        while asks not in said:
            said += more()
        while not said.rstrip(b" ").endswith(b":"):
            said += more()
        os.write(terminal, answer.encode() + b"\n")
    with suppress(OSError):
        while piece := os.read(terminal, 4096):
            said += piece
    assert os.waitpid(child, 0)[1] == 0
    late.cancel()
    os.close(terminal)
    written = (book.root / "products/mine.yml").read_text(encoding="utf-8")
    data = YAML(typ="safe", pure=True).load(written)
    assert (data["form"], data["tone"], data["mixing_ratio"]) == (
        "gel",
        ["cool", "neutral"],
        {"usual": "1:2"},
    )
    assert data["developer_limit"] == "???"
    assert b"Still to fill in: developer_limit." in said


def test_a_former_starts_own_words_are_gaps(book: SmallBook) -> None:
    """What the starts of version 0.1.0 wrote, word for word."""
    book.edit(BLEND_FILE, "by: Ines", "by: «not-filled-in»Your name")
    book.add(
        BLEND_FILE,
        "cautions:\n  - «not-filled-in»Say what is to be watched with this mix, beside the usual cautions.\n",
    )
    book.add(BLEND_FILE, "notes: «not-filled-in»|\n  Say why it is mixed so.\n")
    book.shows(findings=3)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("ratio: 1:2", "ratio: «not-filled-in»???"),
        (
            "suits:\n  natural_level: 6-10\n  lift: 1-3\n"
            "  texture: [fine, medium]\n  placement: [open-air]\n",
            "suits: «not-filled-in»???\n",
        ),
        ("{product: clay, parts: 3}", "«not-filled-in»???"),
    ],
)
def test_a_gap_is_one_finding_whatever_belongs_there(book: SmallBook, old: str, new: str) -> None:
    book.edit(BLEND_FILE, old, new)
    book.shows(findings=1)


def test_a_gap_in_brackets_is_called_a_gap(book: SmallBook) -> None:
    """YAML 1.2.2, 7.4: a question mark cannot begin a value in brackets."""
    book.edit(BLEND_FILE, "{ratio: 1:2,", "{ratio: «not-filled-in»???,")
    book.shows(findings=1)


def test_a_start_explains_itself(tmp_path: Path) -> None:
    for kind in START_KINDS:
        run("new", kind, f"My {kind}", recipes=tmp_path)
    for path in tmp_path.rglob("*.yml"):
        lines = path.read_text(encoding="utf-8").split("\n")
        assert lines[0].startswith("# yaml-language-server: $schema=../")
        assert lines[1].startswith("# ")
        assert "$" not in "\n".join(lines[1:])


def test_the_day_is_the_one_of_source_date_epoch(book: SmallBook, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1767225600")  # 2026-01-01T00:00:00Z
    run("new", "blend", "Mine", recipes=book.root)
    assert "on: 2026-01-01" in (book.root / "blends/mine.yml").read_text(encoding="utf-8")


@pytest.mark.parametrize("kind", ["house", "supply", "blend"])
def test_it_never_overwrites(book: SmallBook, kind: str) -> None:
    run("new", kind, "Mine", recipes=book.root)
    before = {path: path.read_bytes() for path in book.root.rglob("*.yml")}
    result = run("new", kind, "Mine", recipes=book.root)
    assert result.exit_code == 1
    assert "is there already; nothing was written" in result.stderr
    assert {path: path.read_bytes() for path in book.root.rglob("*.yml")} == before
    assert before[book.root / HOUSE_FILE].startswith(b"title: Small book\n")


def test_a_folder_that_cannot_be_written_is_reported(tmp_path: Path) -> None:
    file = tmp_path / "file"
    file.write_text("mine", encoding="utf-8")
    assert "cannot be written" in refused("new", "supply", "Mine", recipes=file)
    assert file.read_text(encoding="utf-8") == "mine"


def test_a_field_that_is_given_twice_is_refused(book: SmallBook) -> None:
    words = ("new", "developer", "Mine", "--set=volume=20", "--set=volume=40")
    assert '--set gives "volume" twice.' in refused(*words, recipes=book.root)
    assert not (book.root / "products/mine.yml").exists()


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
    assert says in refused("new", "supply", name, recipes=book.root)
    assert sorted(book.root.rglob("*")) == before


def test_a_name_without_latin_letters_takes_an_id(book: SmallBook) -> None:
    assert run("new", "supply", "漂白", "--id", "piao-bai", recipes=book.root).exit_code == 0
    assert errors(book.root) == []


@pytest.mark.parametrize("wrong", ["Two Words", "-dash", "a--b", "../up", "a/b", "con", "x" * 61, "a.yml"])
def test_an_id_that_cannot_be(book: SmallBook, wrong: str) -> None:
    before = sorted(book.root.rglob("*"))
    assert refused("new", "supply", "Fine", "--id", wrong, recipes=book.root)
    assert sorted(book.root.rglob("*")) == before


def test_wrong_use(book: SmallBook) -> None:
    assert refused("new", "bowl", "Mine", recipes=book.root)
    assert refused("new", "blend", recipes=book.root)


@pytest.fixture(scope="module")
def a_book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book with nothing but its house."""
    root = tmp_path_factory.mktemp("any") / "recipes"
    assert run("new", "house", "Mine", *filled_in("house"), recipes=root).exit_code == 0
    return root


@pytest.mark.long
@given(
    name=st.one_of(
        st.text(max_size=30),
        st.text("\x00\x07\x1b\x7f\x85\xa0\u200b\u2028\u202e\ufeff\ud800\U000e0041aé<>:\"'#-\\$", max_size=12),
        st.text(string.punctuation + "abc ", max_size=20),
    )
)
@settings(max_examples=150 if os.environ.get("BOWLBOOK_LONG") else 20, deadline=None)
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
