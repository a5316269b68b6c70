"""The page about hosts: its table names every file of a site, its order of copying leaves no page bare."""

import hashlib
import json
import re
from collections.abc import Iterator
from fnmatch import fnmatchcase
from pathlib import Path

import pytest
from small_site import bytes_of

from bowlbook.checks.judge import judge
from bowlbook.pages.policy import POLICY
from bowlbook.site.engine import build_into
from bowlbook.site.manifest import MANIFEST
from bowlbook.site.offline import TYPES
from bowlbook.site.publish import publish
from checks.small_book import CLAY_FILE, DAY, SmallBook

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "generator/bowlbook/pages/manual/host.md").read_text(encoding="utf-8")
ROWS = re.findall(r"^\| `([^`]+)` \| ([^|]+) \| ([^|]+) \|$", PAGE, re.M)


def row_of(path: str) -> tuple[str, str, str]:
    """The first row of the table whose pattern fits."""
    return next(row for row in ROWS if fnmatchcase(path, row[0]))


def test_every_file_has_a_row_and_every_row_a_file(demo_site: Path) -> None:
    paths = [path for path in bytes_of(demo_site) if path != MANIFEST]
    assert {row_of(path) for path in paths} == set(ROWS)


def test_the_types_are_those_that_the_copy_on_the_phone_answers_with(demo_site: Path) -> None:
    for path in bytes_of(demo_site):
        if Path(path).suffix in TYPES:
            assert row_of(path)[1] == TYPES[Path(path).suffix], path


def test_what_is_kept_for_a_year_is_named_after_its_content(demo_site: Path) -> None:
    """SHA-256 by hashlib, of the file as it is there. The folder of assets is held by its own test."""
    held = 0
    for path, content in bytes_of(demo_site).items():
        if path.startswith(("data/", "copy/")) and row_of(path)[2] == "a year":
            reported = re.search(r"-([0-9a-f]+)\.(json|pack)$", path)
            assert reported is not None and hashlib.sha256(content).hexdigest().startswith(reported[1])
            held += 1
    assert held > 10


def test_the_policy_of_the_header_is_that_of_the_pages() -> None:
    assert f"Content-Security-Policy: {POLICY}; frame-ancestors 'none'\n" in PAGE


def built(book: SmallBook, site: Path) -> dict[str, bytes]:
    """The small book's site, as it is to be copied."""
    judgement = judge(book.root, DAY)
    publish(lambda folder: build_into(folder, ROOT / "mkdocs.yml", judgement, print), site)
    return {path: content for path, content in bytes_of(site).items() if path != MANIFEST}


def step_of(path: str) -> int:
    """The numbered step of the page in which a file is copied."""
    if row_of(path)[2] == "a year":
        return 1
    return {"data/names.json": 3, "manifest.webmanifest": 3, "sw.js": 4}.get(path, 2)


def bare(store: dict[str, bytes]) -> Iterator[str]:
    """Whatever a file of the store asks for that the store does not have."""
    for path, content in store.items():
        text = content.decode("utf-8") if path.endswith((".html", ".js", ".json")) else ""
        if path.endswith(".html"):
            asked = re.findall(r'(?:src|href|data-pick)="((?:\.\./|/)*(?:assets|data)/[^"]*)"', text)
            wanted = {re.sub(r"^(\.\./|/)*", "", each) for each in asked}
        elif path == "sw.js":
            wanted = set(json.loads(text[len("const COPY = ") : text.index(";\n")])["packs"])
        elif path == "data/names.json":
            wanted = {f"data/{name}" for name in json.loads(text).values()}
        else:
            continue
        yield from (f"{path}: {each}" for each in wanted - store.keys())


@pytest.mark.long
def test_after_each_file_of_the_copying_nothing_is_bare(tmp_path: Path) -> None:
    """A rename and a new price; the assets are another release's too. Another order is seen to be worse."""
    book = SmallBook(tmp_path / "recipes")
    old = built(book, tmp_path / "old")
    (folder,) = {path.split("/")[1] for path in old if re.match(r"assets/\w{10}/", path)}
    book.edit(CLAY_FILE, "Plain clay", "Plain clay of the house")
    book.edit(CLAY_FILE, "39.00", "44.00")
    new = {
        path.replace(folder, "0123456789"): content.replace(folder.encode(), b"0123456789")
        for path, content in built(book, tmp_path / "new").items()
    }
    changed = sorted(path for path in new if old.get(path) != new[path])
    assert {step_of(path) for path in changed} == {1, 2, 3, 4}
    store = dict(old)
    assert list(bare(store)) == []
    for path in sorted(changed, key=step_of):
        store[path] = new[path]
        assert list(bare(store)) == [], path
    assert bare_on_the_way(old, new, sorted(changed, key=step_of, reverse=True)) > 0
    for path in store.keys() - new.keys():
        del store[path]
    assert store == new


def bare_on_the_way(old: dict[str, bytes], new: dict[str, bytes], order: list[str]) -> int:
    """How often something was bare, in another order."""
    store, count = dict(old), 0
    for path in order:
        store[path] = new[path]
        count += any(True for _ in bare(store))
    return count
