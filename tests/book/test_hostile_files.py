"""Files made to hurt: each is a finding, in bounded time and memory, and the rest of the book is read."""

import errno
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from bowlbook.book.read_book import read_book
from checks.small_book import SmallBook
from systems import needs_limits

ROOT = Path(__file__).parents[2]
NESTED = "notes: " + "[" * 100_000
ALIASES = "a: &a [x]\n" + "".join(
    f"{chr(98 + n)}: &{chr(98 + n)} [{', '.join(['*' + chr(97 + n)] * 9)}]\n" for n in range(20)
)
TEXTS = {
    "aliases": (ALIASES, "yaml-feature"),
    "nested-lists": (NESTED, "not-yaml"),
    "nested-maps": ("a: " + "{a: " * 50_000, "too-deep"),
    "huge-number": ("name: x\nkind: supply\npack: {net: " + "9" * 200_000 + " g}", "bad-amount"),
    "huge-exponent": ("name: x\nkind: supply\npack: {net: 1e999999999 pieces}", "bad-amount"),
    "huge-file": ("name: x\n" + "#" * 3_000_000, "file-too-large"),
    "many-values": ("formerly:\n" + "- x\n" * 60_000, "too-many-values"),
    "many-keys": ("".join(f"k{n}: 1\n" for n in range(20_000)), "too-many-values"),
    "same-keys": ("name: x\n" * 9_000, "duplicate-key"),
    "long-line": ("name: x\nkind: supply\nnotes: " + "x" * 200_000, "text-too-long"),
    "brackets": ("name: x\nkind: supply\nnotes: '" + "[" * 1_900 + "'", "text-too-deep"),
    "quotes": ("name: x\nkind: supply\nnotes: |\n" + "  > a\n" * 390 + "  " + "> " * 500, "text-too-deep"),
    "lists": ("name: x\nkind: supply\nnotes: |\n  " + "- " * 300 + "x", "text-too-deep"),
    "many-lines": ("name: x\nkind: supply\nnotes: |\n" + "  a\n  -\n" * 3_000, "text-too-long"),
    "control": ("name: x\x1b[2J\nkind: supply\n", "control-character"),
    "direction": ("name: x\u202e\nkind: supply\n", "control-character"),
    "surrogate": ('name: "\\ud800"\nkind: supply\n', "not-yaml"),
    "binary": ("name: !!binary aGl0\n", "yaml-feature"),
    "python": ("name: !!python/object/apply:os.system [ls]\n", "yaml-feature"),
}
LIMITED = """
import resource, sys, time
resource.setrlimit(resource.RLIMIT_AS, (700 << 20, 700 << 20))
from pathlib import Path
from bowlbook.book.read_book import read_book
from bowlbook.reading.finding import finding_text
began = time.process_time()
for each in read_book(Path(sys.argv[1])).findings:
    print(finding_text(each).encode("ascii", "backslashreplace").decode())
print("seconds", time.process_time() - began)
print("kilobytes", resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""


def read_apart(recipes: Path) -> str:
    """What a process of its own, with 700 MB of addresses, finds in a book; ended after a minute."""
    done = subprocess.run(
        [sys.executable, "-c", LIMITED, str(recipes)],
        env={**os.environ, "PYTHONPATH": str(ROOT / "generator")},
        capture_output=True,
        text=True,
        timeout=60,
    )
    assert done.returncode == 0 and done.stderr == "", done.stderr
    return done.stdout


def figure(said: str, word: str) -> float:
    return next(float(line.split()[1]) for line in said.splitlines() if line.startswith(word))


@needs_limits
def test_hostile_texts(tmp_path: Path) -> None:
    plain = figure(read_apart(SmallBook(tmp_path / "plain").root), "kilobytes")
    book = SmallBook(tmp_path / "recipes")
    for name, (text, _) in TEXTS.items():
        (book.root / "products" / f"{name}.yml").write_text(text, encoding="utf-8", newline="")
    said = read_apart(book.root)
    prefix = f"{book.root}/products/"
    codes = [line[len(prefix) :].split()[:2] for line in said.splitlines() if line.startswith(prefix)]
    found = {(place.partition(".yml:")[0], code) for place, code in codes}
    found |= {
        (name, "not-yaml") for name, code in found if code == "too-deep"
    }  # as the parser's version has it
    assert {(name, code) for name, (_, code) in TEXTS.items()} - found == set()
    assert figure(said, "seconds") < 2 * len(TEXTS)
    assert figure(said, "kilobytes") - plain < 200 * 1024
    assert max(map(len, said.splitlines())) < 700  # 160 signs, each written as four


@needs_limits
def test_things_that_are_no_files(book: SmallBook) -> None:
    products = book.root / "products"
    (products / "outside.yml").symlink_to("/etc/passwd")
    (products / "zero.yml").symlink_to("/dev/zero")
    (products / "loop.yml").symlink_to("loop.yml")
    os.mkfifo(products / "pipe.yml")
    (products / "folder.yml").mkdir()
    (book.root / "blends" / "up").symlink_to("../..")
    (book.root / "more").symlink_to("/")
    said = read_apart(book.root)
    assert said.count(": not-a-file ") == 6 and said.count(": misplaced-file ") == 1
    assert "root:" not in said  # nothing of what a link leads to


@pytest.mark.skipif(getattr(os, "geteuid", bool)() == 0, reason="root may read anything")
@needs_limits
def test_a_file_that_may_not_be_read(book: SmallBook) -> None:
    (book.root / "products" / "foil.yml").chmod(0)
    assert "foil.yml:1:1: not-a-file This file cannot be read: permission denied." in read_apart(book.root)


@pytest.mark.parametrize("name", [".", "blends", "products"])
def test_a_folder_that_may_not_be_read(book: SmallBook, name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """One finding, and none for each mention of what is in it. The system's word is given: root reads all."""
    scandir = os.scandir

    def refused(folder: Path) -> Iterator[os.DirEntry[str]]:
        if Path(folder) == book.root / name:
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(folder))
        return scandir(folder)

    monkeypatch.setattr("os.scandir", refused)
    reading = read_book(book.root)
    assert reading.book is None
    assert [(each.place.path, each.code) for each in reading.findings] == [
        (str(book.root / name), "not-a-file")
    ]
    assert reading.findings[0].message == "This folder cannot be read: permission denied."


RESERVED = ["con", "prn", "aux", "nul", "com1", "com9", "lpt1", "lpt9"]
"""Names that Windows keeps for devices: Microsoft's "Naming Files, Paths, and Namespaces"."""
ODD = [
    "A",
    "a b",
    "a_b",
    "-a",
    "a-",
    "a--b",
    "é",
    "\uff41",
    "\u0430",
    "a\u200b",
    "a\n",
    "a.b",
    "x" * 61,
    "%61",
    "index",
]


@pytest.mark.parametrize("name", [*RESERVED, *ODD])
def test_odd_names(book: SmallBook, name: str) -> None:
    (book.root / "products" / f"{name}.yml").write_text("name: Strip\nkind: supply\n", encoding="utf-8")
    found = [each for each in read_book(book.root).findings if each.severity == "error"]
    assert [each.code for each in found] == ["bad-file-name"]
    assert found[0].place.path.isprintable() and ".yml" in found[0].mend


@needs_limits
def test_a_limit_of_memory_would_be_noticed() -> None:
    """The limit of the process that reads is one that can be met."""
    import resource  # not on Windows

    code = "import resource; resource.setrlimit(resource.RLIMIT_AS, (700 << 20,) * 2); bytearray(800 << 20)"
    assert b"MemoryError" in subprocess.run([sys.executable, "-c", code], capture_output=True).stderr
    assert resource.getrlimit(resource.RLIMIT_AS)[0] != 700 << 20
