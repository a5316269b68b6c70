"""``bowlbook check``: its exit codes, its switches, its JSON."""

import json
from pathlib import Path

from checks.small_book import BLEND_FILE, CLAY_FILE, SmallBook

from commands.run import run, run_json


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
    assert run("check", "--strict", recipes=book.root).exit_code == 1


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


def test_strict_json_of_a_warning(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "2026-09-01", "2020-09-01")
    result = run("check", "--json", "--strict", recipes=book.root)
    assert result.exit_code == 1
    assert [row["severity"] for row in json.loads(result.stdout)] == ["warning"]


def test_no_folder(tmp_path: Path) -> None:
    result = run("check", recipes=tmp_path / "nowhere")
    assert result.exit_code == 1
    assert ":1:1: no-book " in result.stdout


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
