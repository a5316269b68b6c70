"""``bowlbook prices``: a dry run by default; --take-over changes the prices and nothing else."""

import difflib
import json
import os
import shutil
from pathlib import Path

import pytest
from ruamel.yaml import YAML
from tests.site.small_site import bytes_of

from commands.run import run
from seeds import rows_with_long
from systems import needs_pipes

HEAD = "product,net,price,date\n"
GOOD = HEAD + "blue-powder,500 g,45.00,2026-11-20\nfoil-long,500 pieces,33.50,2026-11-20\n"


@pytest.fixture
def shelf(recipes: Path, tmp_path: Path) -> Path:
    """The demo book's products and blends alone."""
    others = shutil.ignore_patterns("techniques", "situations", "classes", "troubles")
    return shutil.copytree(recipes, tmp_path / "recipes", ignore=others)


def listed(tmp_path: Path, text: str | bytes) -> str:
    path = tmp_path / "list.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return str(path)


def test_changes_are_printed_and_nothing_is_written(recipes: Path, tmp_path: Path) -> None:
    """By hand: 9.355 g of blue powder at 0.078 (then 0.09) a gram, 4.819 g of white at 0.068, 28.350 g of
    developer at 12.50 for 1 L of 1.02 g/mL: 0.7297 + 0.3277 + 0.3474 = 1.40; then 0.8420 + ... = 1.52."""
    house = shutil.copytree(recipes, tmp_path / "recipes")
    before = bytes_of(house)
    result = run("prices", listed(tmp_path, GOOD), "--json", recipes=house)
    assert result.exit_code == 0, result.stderr
    found = {(each["kind"], each["id"]): each["facts"] for each in json.loads(result.stdout)}
    foil = {fact["what"]: fact for fact in found["blend", "cool-foil-coarse"]}
    was, now = (foil["cost at 0.5, 1, 2 oz"][when].split(",")[0] for when in ("before", "after"))
    assert (was, now) == ("1.40", "1.52")
    assert any(kind == "technique" for kind, _ in found) and any(kind == "class" for kind, _ in found)
    assert bytes_of(house) == before


def test_taken_over_line_by_line(shelf: Path, tmp_path: Path) -> None:
    before = bytes_of(shelf)
    result = run("prices", listed(tmp_path, GOOD), "--take-over", recipes=shelf)
    assert result.exit_code == 0 and "Took over 2 prices." in result.stdout
    after = bytes_of(shelf)
    changed = {path for path in before if before[path] != after[path]}
    assert {Path(path).stem for path in changed} == {
        "blue-powder",
        "foil-long",
    } and before.keys() == after.keys()
    for path in changed:
        one, other = before[path].decode().splitlines(), after[path].decode().splitlines()
        lines = [line for line in difflib.ndiff(one, other) if line[0] in "+-"]
        assert [line[:7] for line in lines] == ["- pack:", "+ pack:"]
        old, new = YAML().load(before[path].decode()), YAML().load(after[path].decode())  # another reader
        assert list(old) == list(new) and list(old["pack"]) == list(new["pack"])
        assert {key for key in old if old[key] != new[key]} == {"pack"}
        assert str(new["pack"]["priced_on"]) == "2026-11-20"
    assert run("prices", listed(tmp_path, GOOD), recipes=shelf).stdout == "Nothing changed at the bench.\n"
    assert run("check", recipes=shelf).exit_code == 0


FORMS = {
    "block": "pack:\n  net: 500 g  # the large tub\n  price: 39.00  # since May\n  priced_on: 2026-09-14\n",
    "quoted": 'pack: {net: "500 g", price: \'39.00\', priced_on: "2026-09-14"} # tub\n',
    "no price": "pack: {net: 500 g, supplier: Harbour Salon Goods} # ask\n",
    "no price, block": "pack:\n    net: 500 g  # tub\n    supplier: Harbour Salon Goods\n",
    "no pack": "",
}


LINUX, WINDOWS = ("\n", b""), ("\r\n", b"\xef\xbb\xbf")
"""How lines end, and the mark that a file begins with."""
WRITTEN = [(form, *(WINDOWS if "block" in form else LINUX)) for form in FORMS]
OTHERWISE = [(form, *(LINUX if "block" in form else WINDOWS)) for form in FORMS]


@pytest.mark.parametrize("form, ends, mark", rows_with_long(WRITTEN, OTHERWISE))
def test_however_a_pack_is_written(shelf: Path, tmp_path: Path, form: str, ends: str, mark: bytes) -> None:
    path = shelf / "products" / "blue-powder.yml"
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    at = next(number for number, line in enumerate(lines) if line.startswith("pack:"))
    text = "".join([*lines[:at], FORMS[form], *lines[at + 1 :]]).replace("\n", ends)
    path.write_bytes(mark + text.encode())
    result = run(
        "prices",
        listed(tmp_path, HEAD + "blue-powder,450 g,45.00,2026-11-20\n"),
        "--take-over",
        recipes=shelf,
    )
    assert result.exit_code == 0, result.stderr
    after = path.read_bytes()
    assert after.startswith(mark)
    new = YAML().load(after.removeprefix(mark).decode())
    pack = new["pack"]
    assert (pack["net"], float(pack["price"]), str(pack["priced_on"])) == ("450 g", 45, "2026-11-20")
    kept = [line for line in text.splitlines() if "net:" not in line and "price" not in line]
    shown = after.decode("utf-8-sig").splitlines()
    assert [line for line in kept if line not in shown] == []
    assert after.count(b"\r\n") == (after.count(b"\n") if ends == "\r\n" else 0)
    for comment in ("# the large tub", "# since May", "# tub", "# ask"):
        assert (comment in FORMS[form]) == (comment.encode() in after)


BAD = {
    "unknown product": (HEAD + "blue-powdr,500 g,45.00,2026-11-20\n", "2:1: unknown-id"),
    "another currency": (HEAD + "blue-powder,500 g,45.00 EUR,2026-11-20\n", "2:19: mixed-currency"),
    "currency column": (
        "product,net,price,date,currency\nblue-powder,500 g,45.00,2026-11-20,USD\n",
        "2:36: mixed-currency",
    ),
    "broken number": (HEAD + "blue-powder,500 g,4o.00,2026-11-20\n", "2:19: wrong-unit"),
    "two points": (HEAD + "blue-powder,500 g,4.0.0,2026-11-20\n", "2:19: bad-amount"),
    "no such day": (HEAD + "blue-powder,500 g,45.00,2026-02-30\n", "2:25: bad-amount"),
    "no unit": (HEAD + "blue-powder,500,45.00,2026-11-20\n", "2:13: "),
    "twice": (GOOD + "foil-long,500 pieces,34.00,2026-11-20\n", "4:1: duplicate-reference"),
    "no header": ("blue-powder,500 g,45.00,2026-11-20\n", "1:1: bad-price-list"),
    "short row": (HEAD + "blue-powder,500 g\n", "2:1: bad-price-list"),
    "open quote": (HEAD + '"blue-powder,500 g,45.00,2026-11-20\n', "2:1: bad-price-list"),
    "empty": ("", "1:1: empty-file"),
    "not text": (b"\xff\xfe\x00", "1:1: not-utf-8"),
    "another encoding": (GOOD.encode() + b"\xe9,1 L,2.00,2026-09-01\n", "4:1: not-utf-8 "),
    "zeros": (b"product\0", "1:8: control-character"),
    "huge": ("x" * 1_000_001, "1:1: file-too-large"),
}


@pytest.mark.parametrize("case", BAD)
def test_bad_lists_change_nothing(shelf: Path, tmp_path: Path, case: str) -> None:
    text, expected = BAD[case]
    before = bytes_of(shelf)
    result = run("prices", listed(tmp_path, text), "--take-over", recipes=shelf)
    assert result.exit_code == 1
    assert f"list.csv:{expected}" in result.stderr
    assert "Traceback" not in result.output
    assert bytes_of(shelf) == before


def test_no_such_list(shelf: Path, tmp_path: Path) -> None:
    result = run("prices", str(tmp_path / "none.csv"), recipes=shelf)
    assert result.exit_code == 1 and "cannot be read: no such file" in result.stderr


@needs_pipes
def test_a_pipe_or_a_device_is_not_waited_for(shelf: Path, tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.csv")
    for path in (tmp_path / "pipe.csv", Path("/dev/zero"), tmp_path):
        result = run("prices", str(path), recipes=shelf)
        assert result.exit_code == 1 and " not-a-file " in result.stderr


def test_a_fault_while_writing_leaves_every_file_as_it_was(
    shelf: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = bytes_of(shelf)
    replace, calls = Path.replace, []

    def failing(self: Path, target: Path) -> Path:
        calls.append(target)
        if len(calls) == 2:
            raise OSError(28, "No space left on device", str(target))
        return replace(self, target)

    monkeypatch.setattr(Path, "replace", failing)
    result = run("prices", listed(tmp_path, GOOD), "--take-over", recipes=shelf)
    assert result.exit_code == 1 and "Nothing was taken over." in result.stderr
    assert bytes_of(shelf) == before
