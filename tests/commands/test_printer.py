"""What reaches a terminal: which signs, whose private values, and how many findings of one kind."""

import json
import os
import re
import sys
from pathlib import Path

import pytest

from bowlbook.commands.group import PROGRAM
from bowlbook.commands.printer import FEW, MANY, visible
from checks.small_book import BLEND_FILE, CLAY_FILE, FILES, SmallBook
from commands.run import run
from seeds import rows_with_long

COMMANDS = Path(__file__).parents[2] / "generator" / "bowlbook" / "commands"

CONTROLS = [chr(code) for code in (*range(9), *range(11, 32), 127, *range(128, 160))]
"""C0 but tab and line end, DEL and C1 (ECMA-48, 5)."""
BIDI = [chr(code) for code in (*range(0x202A, 0x202F), *range(0x2066, 0x206A))]
"""Embeddings, overrides and isolates (Unicode Standard Annex #9, 2)."""


@pytest.mark.parametrize("sign", [*CONTROLS, *BIDI], ids=lambda sign: f"{ord(sign):04x}")
def test_a_control_sign_is_printed_as_its_code(sign: str) -> None:
    assert visible(f"a{sign}b\tc\nd") == f"a\\u{ord(sign):04x}b\tc\nd"
    assert json.loads(visible(json.dumps({"a": sign}, ensure_ascii=False))) == {"a": sign}


def test_ordinary_text_stays() -> None:
    text = "Crème brûlée – 30 % · ½ 漂白 \U0001f642\n\tx"
    assert visible(text) == text
    assert json.loads(f'"{visible(chr(0xE0041))}"') == "\U000e0041"
    assert visible(os.fsdecode(b"\xff")) == "\\udcff"


EVIL = "\x1b]0;owned\x07\x1b[2J\x9b31m\u202e"


def controls_in(text: str) -> list[str]:
    return [sign for sign in text if sign in CONTROLS or sign in BIDI]


def test_a_price_list_sends_no_terminal_codes(book: SmallBook, tmp_path: Path) -> None:
    prices = tmp_path / "list.csv"
    prices.write_text(f"product,net,price,date\n{EVIL},450 g,39.00,2026-11-20\n", encoding="utf-8")
    result = run("prices", str(prices), recipes=book.root)
    assert result.exit_code == 1
    said = result.stdout + result.stderr
    assert controls_in(said) == []
    assert "(U+001B)" in said and "owned" not in said  # refused at the sign, not repeated


def test_nor_does_a_path_or_a_word_of_the_command_line(book: SmallBook, tmp_path: Path) -> None:
    evil = tmp_path / f"x{EVIL}y\nblends/soft-clay.yml:1:1: forged"
    for words in (
        ["check", "--recipes", str(evil)],
        ["check", "--json", "--recipes", str(evil)],
        ["check", f"--{EVIL}"],
        [f"che{EVIL}ck"],
        ["mix", EVIL, "--recipes", str(book.root)],
        ["diff", EVIL, "--recipes", str(book.root)],
        ["prices", str(evil), "--recipes", str(book.root)],
        ["new", "supply", EVIL, "--recipes", str(book.root)],
    ):
        result = run(*words)
        assert result.exit_code in (1, 2), words
        assert controls_in(result.output) == [], words
        assert not re.search(r"(?m)^blends/soft-clay.yml:1:1: forged", result.output), words


def test_the_folders_of_a_group_send_none(book: SmallBook, tmp_path: Path) -> None:
    salon = tmp_path / "group" / f"north{EVIL}"
    salon.mkdir(parents=True)
    book.root.rename(salon / "recipes")
    result = run("check", "--all", str(tmp_path / "group"))
    assert result.exit_code == 0
    assert controls_in(result.output) == []


def test_commands_print_through_the_printer() -> None:
    """But for those whose texts are of the book alone, in which reading refuses control signs."""
    direct = {
        path.stem for path in COMMANDS.glob("*.py") if "click.echo(" in path.read_text(encoding="utf-8")
    }
    assert direct - {"kit", "match", "mix", "plan"} == {"__init__", "printer"}


def at_a_terminal(folder: Path, *words: str, **environment: str) -> str:
    """What a command writes to a terminal of its own, standard output and error together."""
    pty = pytest.importorskip("pty")
    kept = {key: value for key, value in os.environ.items() if key != "CI"}
    child, terminal = pty.fork()
    if child == 0:
        os.chdir(folder)
        os.execve(sys.executable, [*PROGRAM, *words], {**kept, **environment})
    said = bytearray()
    while True:
        try:
            piece = os.read(terminal, 1 << 16)
        except OSError:  # Linux says so that the other end is closed
            break
        if not piece:
            break
        said += piece
    os.waitpid(child, 0)
    os.close(terminal)
    return said.decode().replace("\r\n", "\n")


@pytest.fixture
def spoilt(book: SmallBook) -> SmallBook:
    """An unreadable price, a supplier's name next to a mistake, and a misspelt private key."""
    book.edit(CLAY_FILE, "price: 39.00", "supplier: Mirabel, price: 39,17")
    book.add(CLAY_FILE, "suplier: Quentin\n")
    book.edit(BLEND_FILE, "by: Ines", "by: Ines, onn: x")
    return book


def test_the_author_sees_her_own_prices_and_names_at_her_terminal(spoilt: SmallBook) -> None:
    said = at_a_terminal(spoilt.root.parent, "check")
    assert "supplier: Mirabel, price: 39,17" in said
    assert "Write 39.17, with a point." in said
    assert "by: Ines, onn: ·" in said
    assert "Quentin" not in said


@pytest.mark.parametrize(
    ("words", "environment"),
    rows_with_long(
        [(["check", "--json"], {}), (["build"], {"CI": "1"})],
        [(["check", "--format", "github"], {}), (["check"], {"CI": "true"})],
    ),
)
def test_what_travels_is_masked_also_at_a_terminal(
    spoilt: SmallBook, words: list[str], environment: dict[str, str]
) -> None:
    (spoilt.root.parent / "mkdocs.yml").write_text("site_name: A book\n", encoding="utf-8")
    said = at_a_terminal(spoilt.root.parent, *words, **environment)
    assert "bad-amount" in said
    for private in ("Mirabel", "39,17", "39.17", "Ines", "Quentin"):
        assert private not in said


def test_a_pipe_is_masked(spoilt: SmallBook) -> None:
    for form in ("text", "json", "github"):
        said = run("check", "--format", form, recipes=spoilt.root).output
        assert "bad-amount" in said
        for private in ("Mirabel", "39,17", "39.17", "Ines", "Quentin"):
            assert private not in said, form


@pytest.fixture
def many(book: SmallBook) -> SmallBook:
    """A book with 60 warnings of one kind, one of another, and an error behind them."""
    for number in range(60):
        book.write(f"products/spare-{number}.yml", f"name: Spare {number}\nkind: supply\n")
    book.edit(CLAY_FILE, "2026-09-01", "2020-09-01")
    book.edit("techniques/painting.yml", "blend: soft-clay", "blend: soft-clya")
    return book


def test_many_findings_of_a_kind_are_a_few_and_how_many_more(many: SmallBook) -> None:
    many.edit("techniques/painting.yml", "blend: soft-clya", "blend: soft-clay")
    result = run("check", recipes=many.root)
    assert result.exit_code == 0
    assert result.stdout.count(": unused-entry ") == FEW
    assert result.stdout.count(": stale-price ") == 1
    assert result.stdout.endswith(
        f"\n… and {60 - FEW} more of unused-entry\n"
        "To see every one of them: bowlbook check --full\n0 errors, 61 warnings.\n"
    )
    assert run("check", "--full", recipes=many.root).stdout.count(": unused-entry ") == 60
    assert run("check", "--format", "github", recipes=many.root).stdout.count("unused-entry") == 60
    assert len(json.loads(run("check", "--json", recipes=many.root).stdout)) == 61


def test_errors_come_before_many_warnings(many: SmallBook) -> None:
    for path in FILES:
        if path.startswith("products/"):
            many.add(path, "".join(f"unheard-of-{number}: x\n" for number in range(20)))
    result = run("check", recipes=many.root)
    heads = re.findall(r"(?m)^\S+:\d+:\d+: (\S+)( \(warning\))?", result.stdout)
    assert heads == sorted(heads, key=lambda each: each[1])
    assert [code for code, _ in heads].count("unknown-key") == FEW
    assert ("unknown-id", "") in heads
    assert "… and 75 more of unknown-key" in result.stdout


def test_a_build_groups_too(many: SmallBook, tmp_path: Path) -> None:
    config = tmp_path / "mkdocs.yml"
    config.write_text("site_name: A book\n", encoding="utf-8")
    words = ["build", "--strict", f"--config={config}", f"--site={tmp_path / 'site'}"]
    many.edit("techniques/painting.yml", "blend: soft-clya", "blend: soft-clay")
    assert run(*words, recipes=many.root).stderr.count(": unused-entry ") == FEW
    assert run(*words, "--full", recipes=many.root).stderr.count(": unused-entry ") == 60


def test_up_to_so_many_none_is_left_out(book: SmallBook) -> None:
    book.add(CLAY_FILE, "".join(f"unheard-of-{number}: x\n" for number in range(MANY)))
    assert run("check", recipes=book.root).stdout.count(": unknown-key ") == MANY
