"""``bowlbook check``: its exit codes, its switches, its JSON."""

import json
import re
from pathlib import Path

import pytest

from checks.small_book import BLEND_FILE, CLAY_FILE, SmallBook
from commands.run import run, run_json
from systems import needs_links


def test_a_clean_book(book: SmallBook) -> None:
    result = run("check", recipes=book.root)
    assert (result.exit_code, result.stdout, result.stderr) == (0, "0 errors, 0 warnings.\n", "")
    assert run("check", "--strict", recipes=book.root).exit_code == 0
    assert run_json("check", recipes=book.root) == []


def test_a_warning_stops_nothing_unless_strict(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "2026-09-01", "2020-09-01")
    result = run("check", recipes=book.root)
    assert result.exit_code == 0
    assert f"{book.root / CLAY_FILE}:9:45: stale-price (warning) " in result.stdout
    assert result.stdout.endswith("0 errors, 1 warning.\n")
    for form in ("text", "json"):
        assert run("check", "--strict", "--format", form, recipes=book.root).exit_code == 1


def test_an_error(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:3")
    result = run("check", recipes=book.root)
    assert result.exit_code == 1
    assert f"{book.root / BLEND_FILE}:5:20: ratio-out-of-range 1:3 is outside" in result.stdout
    assert result.stdout.endswith("1 error, 0 warnings.\n")


def test_json_has_every_finding_and_nothing_else(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:3")
    book.edit(CLAY_FILE, "2026-09-01", "2020-09-01")
    result = run("check", "--json", recipes=book.root)
    assert result.exit_code == 1
    rows = json.loads(result.stdout)
    assert [(row["path"], row["line"], row["column"], row["code"], row["severity"]) for row in rows] == [
        (str(book.root / BLEND_FILE), 5, 20, "ratio-out-of-range", "error"),
        (str(book.root / CLAY_FILE), 9, 45, "stale-price", "warning"),
    ]
    assert all(set(row) == {"path", "line", "column", "code", "severity", "message", "mend"} for row in rows)


def test_format_json_is_json(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:3")
    assert run("check", "--format", "json", recipes=book.root).stdout == (
        run("check", "--json", recipes=book.root).stdout
    )


def test_github_puts_each_on_its_line(book: SmallBook, monkeypatch: pytest.MonkeyPatch) -> None:
    """The form is that of GitHub's documentation, "Workflow commands", "Setting an error message"."""
    monkeypatch.chdir(book.root.parent)
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:3")
    book.edit(CLAY_FILE, "2026-09-01", "2020-09-01")
    result = run("check", "--format", "github", recipes=Path("recipes"))
    assert result.exit_code == 1
    first, second = result.stdout.splitlines()
    assert first.startswith(
        f"::error file=recipes/{BLEND_FILE},line=5,col=20,title=ratio-out-of-range::1:3 is outside"
    )
    assert second.startswith(f"::warning file=recipes/{CLAY_FILE},line=9,col=45,title=stale-price::")
    assert result.stderr == ""


@pytest.mark.parametrize("text", ["%0A::error::x", "x::warning file=a::b", "a, b: c", "100 % clay"])
def test_no_text_of_an_author_begins_a_command_of_its_own(book: SmallBook, text: str) -> None:
    book.edit(BLEND_FILE, "product: clay, parts: 3", f'product: "{text}", parts: 3')
    book.write(f"products/{text.replace('/', '-')}.yml", "name: x")
    lines = run("check", "--format", "github", recipes=book.root).stdout.splitlines()
    assert len(lines) >= 2
    for line in lines:
        command, _, message = line.removeprefix("::").partition("::")
        kind, _, properties = command.partition(" ")
        assert kind in ("error", "warning")
        assert [each.partition("=")[0] for each in properties.split(",")] == ["file", "line", "col", "title"]
        assert not re.search(r"%(?!25|3A|2C|0A|0D)", properties) and not re.search(r"%(?!25|0A|0D)", message)


def test_no_folder(tmp_path: Path) -> None:
    result = run("check", recipes=tmp_path / "nowhere")
    assert result.exit_code == 1
    assert ":1:1: no-book " in result.stdout


@pytest.mark.parametrize("word", ["check", "build"])
@needs_links
def test_a_name_that_no_folder_can_have(word: str, tmp_path: Path) -> None:
    """A link that leads to itself, and a name longer than any system takes; nothing is kept of either."""
    (tmp_path / "loop").symlink_to("loop")
    (tmp_path / "mkdocs.yml").write_text("site_name: A book\n", encoding="utf-8")
    more = [f"--config={tmp_path / 'mkdocs.yml'}"] if word == "build" else []
    for name in ("loop", "x" * 300):
        result = run(word, *more, recipes=tmp_path / name)
        assert result.exit_code == 1
        assert ":1:1: no-book " in result.stdout + result.stderr


def test_wrong_use() -> None:
    for words in (["check", "--srict"], ["check", "surplus"], ["chek"], ["--nothing"]):
        result = run(*words)
        assert result.exit_code == 2, words
        assert "Traceback" not in result.output


def test_no_private_note_is_printed(book: SmallBook) -> None:
    book.add(BLEND_FILE, "private: [Mira, pays late]\n")
    result = run("check", recipes=book.root)
    assert result.exit_code == 1
    assert "Mira" not in result.output
    assert "late" not in run("check", "--json", recipes=book.root).output
