"""Cached findings are never stale: after any edit they are what a run without a cache finds."""

import os
import random
import shutil
import subprocess
import sys
import time
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path

import pytest

import bowlbook.checks.judge
import bowlbook.checks.run
from bench.synthetic import write_book
from bowlbook.book.shelf_folder import read_folder
from bowlbook.cache import cache as cache_module
from bowlbook.cache.cache import open_cache
from bowlbook.checks import code_of
from bowlbook.checks.judge import findings_in, judge
from bowlbook.checks.run import OF_BOOK
from bowlbook.reading.code import READING_CODES
from bowlbook.reading.finding import Finding
from checks.small_book import BLEND_FILE, CLAY_FILE, DAY, FILES, HOUSE_FILE, SmallBook
from figures.richer_book import enrich
from seeds import seeds
from systems import needs_fork


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder in which the cache is kept."""
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path / "cache"))
    return tmp_path / "cache" / "bowlbook"


def without_cache(root: Path, day: date = DAY) -> list[Finding]:
    """The findings of a run that keeps nothing."""
    return judge(root, day).findings


def found_in(root: Path, day: date) -> list[Finding]:
    """The findings of a folder, from the cache where nothing changed."""
    with open_cache(root) as cache:
        return findings_in(root, read_folder(root), day, None, cache)


def judged(root: Path, day: date) -> list[Finding]:
    """The findings, those of entries from the cache."""
    with open_cache(root) as cache:
        return judge(root, day, cache=cache).findings


def never(*given: object) -> None:
    raise AssertionError("checked again")


@needs_fork
def test_several_processes_find_the_same(recipes: Path, kept: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    expected = without_cache(recipes, date(2030, 1, 1))
    monkeypatch.setattr("bowlbook.cache.processes.processes_at_hand", lambda: 2)
    monkeypatch.setattr(cache_module, "MANY", 40)
    assert expected and judged(recipes, date(2030, 1, 1)) == expected
    monkeypatch.setattr(bowlbook.checks.run, "_found_in", never)
    assert judged(recipes, date(2030, 1, 1)) == expected


def test_a_second_time_nothing_is_checked(
    book: SmallBook, kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:3")
    first = found_in(book.root, DAY)
    for change in (
        lambda: book.edit(BLEND_FILE, "ratio: 1:3", "ratio: 1:4"),
        lambda: book.edit(HOUSE_FILE, "title: Small", "title: Smaller"),
        lambda: (book.root / "notes").mkdir(),
        lambda: (book.root / "products" / "foil.yml").rename(book.root / "products" / "foils.yml"),
    ):
        with monkeypatch.context() as patch:
            patch.setattr(bowlbook.checks.judge, "_judge", never)
            assert found_in(book.root, DAY) == first == [*first] != []
            change()
            with pytest.raises(AssertionError, match="checked again"):
                found_in(book.root, DAY)
        first = found_in(book.root, DAY)


def test_an_edit_checks_again_what_looks_at_it_only(
    book: SmallBook, kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The tape that only class notes name is looked at by nothing but itself and them."""
    enrich(book)
    judged(book.root, DAY)
    checked: list[str] = []
    inner = bowlbook.checks.run._found_in

    def counting(*given: object) -> list[Finding]:
        checked.append(f"{given[1]} {given[2]}")
        return inner(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(bowlbook.checks.run, "_found_in", counting)
    judged(book.root, DAY)
    assert checked == []
    book.edit("products/foil.yml", "name: ", "name: New ")
    judged(book.root, DAY)
    assert "product foil" in checked
    assert not [each for each in checked if each.startswith(("blend", "situation"))]


def test_these_checks_alone_look_at_the_whole_book_each_time() -> None:
    assert {code_of(check) for check in OF_BOOK} == {
        "look-alike-id",
        "looser-than-shared",
        "no-hair-amounts",
        "same-name",
        "unused-entry",
        "unreviewed-change",
        "unused-picture",
        "word-finds-nothing",
    }


def test_another_day_or_another_way_to_the_folder_is_another_judgement(
    book: SmallBook, kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:3")
    for day in (DAY + timedelta(days=400), DAY):
        assert found_in(book.root, day) == without_cache(book.root, day)
    monkeypatch.chdir(book.root.parent)
    assert [each.place.path for each in found_in(Path("recipes"), DAY)] == [f"recipes/{BLEND_FILE}"]


@pytest.mark.parametrize("content", [b"", b"nonsense", b"\0" * 200])
def test_a_damaged_cache_is_begun_again(book: SmallBook, kept: Path, content: bytes) -> None:
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:3")
    found_in(book.root, DAY)
    for file in kept.iterdir():
        file.write_bytes(content or file.read_bytes()[:-1])
    assert found_in(book.root, DAY) == without_cache(book.root)
    assert found_in(book.root, DAY) == without_cache(book.root)


def test_a_folder_with_a_file_that_cannot_be_read_is_judged_every_time(book: SmallBook, kept: Path) -> None:
    (book.root / "products" / "large.yml").write_bytes(b"#" * 300_000)
    assert [each.code for each in found_in(book.root, DAY)] == ["file-too-large"]


Step = Callable[[random.Random, SmallBook], None]


def _edited(draw: random.Random, book: SmallBook) -> None:
    """One of the words or numbers of one file becomes one out of any file, or a line goes."""
    path = draw.choice(sorted(book.texts))
    lines = book.texts[path].split("\n")
    place = draw.randrange(len(lines))
    if draw.random() < 0.3:
        del lines[place]
    else:
        words = lines[place].split(" ")
        words[draw.randrange(len(words))] = draw.choice(" ".join(FILES.values()).split())
        lines[place] = " ".join(words)
    book.write(path, "\n".join(lines))


def _said_otherwise(draw: random.Random, book: SmallBook) -> None:
    """A number or a word of the trade becomes another of its kind: most often still an entry, and another."""
    path, kind = draw.choice(sorted(book.texts)), draw.choice(OTHERWISE)
    text = book.texts[path]
    places = [place for word in kind for place in range(len(text)) if text.startswith(word, place)]
    if places:
        place = draw.choice(places)
        word = next(word for word in kind if text.startswith(word, place))
        book.write(path, text[:place] + draw.choice(kind) + text[place + len(word) :])


OTHERWISE = (
    ("1:2", "1:1.5", "1:3"),
    ("parts: 3", "parts: 1", "parts: 40"),
    ("clay", "powder", "foil"),
    ("open-air", "foil", "on-scalp"),
    ("fine", "medium", "coarse"),
    ("6-10", "1-4", "5-6", "1-7"),
    ("lift: 1-3", "lift: 2-6", "lift: 1-9"),
    ("2026-10-02", "2026-09-01", "2020-02-02", "2062-01-01"),
    ("20 volume", "40 volume", "10 volume"),
    ("volume: 20", "volume: 40"),
    ("60 minutes", "120 minutes", "35 minutes"),
    ("Ines", "Clay", "Theory"),
    ("39.00", "47.50", "14.50"),
    ("name: Plain clay", "name: Violet powder"),
)


def _mended(draw: random.Random, book: SmallBook) -> None:
    """All that the book began with is there again; what was added stays."""
    for path in FILES:
        book.write(path, FILES[path])


def _added(draw: random.Random, book: SmallBook) -> None:
    path = draw.choice(sorted(FILES)[:-1])
    book.write(path.replace(".yml", f"-{draw.randint(0, 3)}.yml"), book.texts.get(path, FILES[path]))


def _deleted(draw: random.Random, book: SmallBook) -> None:
    path = draw.choice(sorted(book.texts))
    (book.root / path).unlink()
    del book.texts[path]
    if not book.texts:
        _mended(draw, book)


def _renamed(draw: random.Random, book: SmallBook) -> None:
    old, new = draw.choice(sorted(book.texts)), draw.choice(sorted(FILES))
    text = book.texts[old]
    (book.root / old).unlink()
    del book.texts[old]
    book.write(new, text)


def _private(draw: random.Random, book: SmallBook) -> None:
    path = draw.choice(sorted(book.texts))
    book.add(path, draw.choice(["private: Ring 555 0123 4567.\n", "notes: See [it](there), 39.00, Ines.\n"]))


RARE: tuple[Step, ...] = (_edited, _added, _deleted, _renamed, _private)
STEPS: tuple[Step, ...] = (*(_said_otherwise,) * 12, *(_mended,) * 3, *RARE)


@pytest.mark.parametrize("seed", seeds(4))
def test_any_edits_in_any_order(book: SmallBook, kept: Path, seed: int) -> None:
    draw = random.Random(seed)
    if seed % 2:
        enrich(book)
    codes = set()
    for _ in range(30):
        draw.choice(STEPS)(draw, book)
        day = DAY + timedelta(days=draw.choice([0, 0, 0, 300]))
        expected = without_cache(book.root, day)
        assert found_in(book.root, day) == expected
        assert found_in(book.root, day) == expected
        assert judged(book.root, day) == expected
        codes |= {each.code for each in expected} - set(READING_CODES)
    assert len(codes) >= 3


SHELF = "../../shelf"
SHELVED = (
    "name: Plain clay\nkind: lightener\nform: clay\nstrength: medium\nlifts: 5\nmixing_ratio: {usual: 1:2}\n"
    "placement: [open-air]\ndeveloper_limit: 20 volume\nhazards: [It burns.]\n"
    "pack: {net: 450 g, price: 41.00, currency: CAD, priced_on: 2026-09-01, supplier: Mira}\n"
)


def _on_the_shelf(draw: random.Random, book: SmallBook) -> None:
    """Something changes on the shelf, or in the way to it, or in what the book has in the place of it."""
    shelf = book.root / SHELF
    shelf.mkdir(exist_ok=True)
    what, file = draw.randrange(7), shelf / draw.choice(["clay.yml", "other.yml", "Bad name.yml"])
    if what < 3:
        words = (
            ("20 volume", "60 volume"),
            ("41.00", "39.00"),
            ("CAD", "EUR"),
            ("Mira", "Ines"),
            ("name", "nme"),
        )
        file.write_text(SHELVED.replace(*draw.choice(words)), encoding="utf-8")
    elif what == 3:
        file.unlink(missing_ok=True)
    elif what == 4:
        for other in draw.sample(sorted(shelf.iterdir()), min(1, len(list(shelf.iterdir())))):
            other.replace(file)
    elif what == 5:
        book.write(CLAY_FILE, FILES[CLAY_FILE] + draw.choice(["", "instead_of_shared: yes\n"]))
    else:
        book.write(
            HOUSE_FILE, FILES[HOUSE_FILE] + f"products_from: {draw.choice([SHELF, SHELF, '../nowhere'])}\n"
        )


@pytest.mark.parametrize("seed", seeds(3))
def test_any_edits_of_a_book_and_its_shelf(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, seed: int
) -> None:
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path / "cache"))
    book, draw = SmallBook(tmp_path / "group" / "north" / "recipes"), random.Random(seed)
    book.add(HOUSE_FILE, f"products_from: {SHELF}\n")
    codes = set()
    for _ in range(40):
        draw.choice([_on_the_shelf, _on_the_shelf, _said_otherwise, _mended, _deleted])(draw, book)
        if HOUSE_FILE in book.texts and "products_from" not in book.texts[HOUSE_FILE]:
            book.add(HOUSE_FILE, f"products_from: {SHELF}\n")
        expected = without_cache(book.root)
        assert found_in(book.root, DAY) == expected
        assert found_in(book.root, DAY) == expected
        codes |= {each.code for each in expected}
    assert {"looser-than-shared", "duplicate-id"} & codes and len(codes) >= 5


def test_prices_and_names_elsewhere_count(book: SmallBook, kept: Path) -> None:
    """What a text may not say depends on entries that it does not name."""
    book.add(BLEND_FILE, "notes: Ask Mira; it was 41.00 once.\n")
    assert found_in(book.root, DAY) == without_cache(book.root) == []
    book.edit(CLAY_FILE, "price: 39.00", "price: 41.00, supplier: Mira")
    found = found_in(book.root, DAY)
    assert {each.code for each in found} == {"price-in-text", "private-name-in-text"}
    assert found == without_cache(book.root)


def test_what_stands_at_a_rule_comes_and_goes_with_the_recipe(book: SmallBook, kept: Path) -> None:
    rule = (
        "  - {when: {texture: [fine]}, require: {placement: [foil]}, because: Slow., standing: this house}\n"
    )
    book.add(HOUSE_FILE, f"rules:\n{rule}")
    refused = "not_for: [{when: {texture: [fine]}, because: Slow.}]\n"
    seen = []
    for _ in range(2):
        for spoil in (lambda: None, lambda: book.add(BLEND_FILE, refused), lambda: _back(book)):
            spoil()
            found = found_in(book.root, DAY)
            assert found == without_cache(book.root)
            seen.append(sum('blend "soft-clay"' in each.message for each in found))
    assert seen == [1, 0, 1] * 2


def _back(book: SmallBook) -> None:
    book.write(BLEND_FILE, FILES[BLEND_FILE])


@pytest.mark.long
def test_checks_that_are_killed_leave_nothing_false(tmp_path: Path) -> None:
    """Whenever a check of a large book is killed: what is in the cache is right."""
    write_book(tmp_path / "recipes", 150)
    environment = {**os.environ, "BOWLBOOK_CACHE": str(tmp_path / "cache")}
    words = [sys.executable, "-m", "bowlbook.commands", "check", "--format", "json"]

    def checking(variables: dict[str, str]) -> "subprocess.Popen[bytes]":
        return subprocess.Popen(words, cwd=tmp_path, env=variables, stdout=subprocess.PIPE)

    expected = checking({**environment, "BOWLBOOK_CACHE": "off"}).communicate()[0]
    assert len(expected) > 1000
    draw = random.Random(4)
    for number in range(16):
        if number % 4 == 0:
            shutil.rmtree(tmp_path / "cache", ignore_errors=True)
        killed = checking(environment)
        time.sleep(draw.uniform(0.03, 0.3))
        killed.kill()
        killed.communicate(timeout=60)
        assert checking(environment).communicate()[0] == expected
    assert checking(environment).communicate()[0] == expected
