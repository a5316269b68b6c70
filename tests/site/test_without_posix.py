"""Everything works, if slower, without what Windows does not have: fork, users' numbers, flags, signals."""

import subprocess
from pathlib import Path

import pytest
from small_site import bytes_of, python

from checks.small_book import CLAY_FILE, SmallBook

pytestmark = pytest.mark.long

PLAIN = ("-m", "bowlbook.commands")
WITHOUT = (str(Path(__file__).with_name("without_posix.py")),)


def run(start: tuple[str, ...], folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    """A command in a folder, with a cache of its own and two processes where they can be had."""
    cache = folder / f"cache of {'everything' if start is PLAIN else 'less'}"
    return python(*start, *words, cwd=folder, BOWLBOOK_CACHE=str(cache), BOWLBOOK_PROCESSES="2")


CHECK = ("check", "--json")


OTHERS = [("mix", "soft-clay", "--batch", "1oz"), ("match", "--level", "6")]


@pytest.mark.parametrize("words", [CHECK, *OTHERS])
def test_commands_say_the_same(book: SmallBook, words: tuple[str, ...]) -> None:
    book.edit(CLAY_FILE, "priced_on: 2026-09-01", "priced_on: 2025-09-01")  # a warning
    folder = book.root.parent
    expected = run(PLAIN, folder, *words)
    assert expected.returncode == 0 and len(expected.stdout) > 50, expected.stderr
    for _ in range(2):  # with nothing in the cache, and with all of it
        done = run(WITHOUT, folder, *words)
        assert (done.returncode, done.stdout) == (0, expected.stdout), done.stderr
        run(WITHOUT, folder, *CHECK)
    assert len(list((folder / "cache of less" / "bowlbook").iterdir())) == 1


def test_a_build_comes_to_the_same_bytes(book: SmallBook, config: Path) -> None:
    folder = book.root.parent
    for start, site in ((PLAIN, "one"), (WITHOUT, "two")):
        done = run(start, folder, "build", "--site", f"{site}/site")
        assert done.returncode == 0, done.stderr
        assert [path.name for path in (folder / site).iterdir()] == ["site"]
    assert bytes_of(folder / "one") == bytes_of(folder / "two")
