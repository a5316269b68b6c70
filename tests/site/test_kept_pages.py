"""Pages kept from the last build are those that would be made anew, after any edit, whatever the cache."""

import pickle
import random
import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest
from book_edits import EDITS, changed
from bowlbook.book.watched import Answers, watched

from bench.synthetic import write_book
from bowlbook.book.audience import copy_for
from bowlbook.book.book import Book
from bowlbook.book.read_book import read_book
from bowlbook.pages.all_pages import Made, Maker, makers_of
from bowlbook.pages.page import Document, Page, Piece
from bowlbook.site import kept_pages, kept_rows
from bowlbook.site.kept_pages import KeptPages
from bowlbook.site.packed import PackedDocument, Whole

NO_LONGER_THERE = b"cbowlbook.pages.page\nNoLongerThere\n."
SITE = "https://example.org/book/"


def book_of(root: Path) -> Book:
    found = read_book(root)
    assert found.book is not None and found.book.whole, found.findings
    return found.book


def all_makers(book: Book, address: str = SITE) -> list[Maker]:
    return makers_of(book, None, address)


def some_makers(book: Book) -> list[Maker]:
    """Makers of each kind: alone, of pieces, and of documents; without those that look at every head."""
    kinds = ("home", "index/", "blend/", "product/", "bowls", "card/", "cards/")
    return [each for each in all_makers(book) if each.name.startswith(kinds)]


def made_anew(book: Book, makers: list[Maker] | None = None) -> list[Page | Document]:
    """What the makers make of a book that nobody watches, in one go."""
    made: dict[str, list[Made]] = {}
    makers = all_makers(book) if makers is None else makers
    for maker in sorted(makers, key=lambda each: bool(each.needs)):
        pieces = [each.value for name in maker.needs for each in made[name] if isinstance(each, Piece)]
        made[maker.name] = list(maker.make(book, pieces) if maker.needs else maker.make(book))
    every = [each for maker in makers for each in made[maker.name]]
    return [each for each in every if not isinstance(each, Piece)]


def made_kept(
    book: Book, cache: Path, audience: str = "team", makers: list[Maker] | None = None
) -> list[Page | Document]:
    pages = KeptPages(cache)
    made = pages.all_made(book, audience, all_makers(book) if makers is None else makers)
    pages.written()
    return [unpacked(each) for each in made]


def unpacked(made: Whole) -> Page | Document:
    if isinstance(made, PackedDocument):
        return Document(made.path, made.content.decode())
    return Page(made.address, made.title, made.description, made.body, made.headings, made.search)


@pytest.fixture
def root(tmp_path: Path) -> Path:
    write_book(tmp_path / "recipes", 24)
    return tmp_path / "recipes"


@pytest.fixture
def cache(tmp_path: Path) -> Path:
    return tmp_path / "cache" / "book.pages"


@pytest.mark.parametrize("seed", [1, *(pytest.param(seed, marks=pytest.mark.long) for seed in range(2, 12))])
def test_after_any_edits_in_any_order(root: Path, cache: Path, seed: int) -> None:
    """Every kind of edit (three of them in the everyday run), in random order, both audiences by turns."""
    draw = random.Random(seed)
    edits = [*EDITS, *draw.choices(EDITS, k=4)]
    draw.shuffle(edits)
    edits = edits[:3] if seed == 1 else edits
    made_kept(book_of(root), cache)
    for edit in edits:
        edit(root, draw)
        book = book_of(root)
        assert made_kept(book, cache) == made_anew(book), edit.__name__
        if draw.random() < 0.2:
            public = copy_for(book, "public")
            assert made_kept(public, cache, "public") == made_anew(public), edit.__name__


def names_made(book: Book, cache: Path, monkeypatch: pytest.MonkeyPatch) -> set[str]:
    """The makers that a build had to run."""
    ran: set[str] = set()
    with monkeypatch.context() as patch:
        patch.setenv("BOWLBOOK_PROCESSES", "1")
        making = kept_pages._making
        patch.setattr(
            kept_pages,
            "_making",
            lambda book, maker, *more: (ran.add(maker.name), making(book, maker, *more))[1],
        )
        made_kept(book, cache)
    return ran


def test_an_edit_makes_its_own_pages_and_those_that_show_it(
    root: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = book_of(root)
    every = names_made(book, cache, monkeypatch)
    assert every == {maker.name for maker in makers_of(book, None, SITE)}
    assert names_made(book, cache, monkeypatch) == set()
    blend = next(entry_id for kind, entry_id in book.used_by if kind == "blend")
    changed(root / "blends" / f"{blend}.yml", "notes: |\n", "notes: |\n  One more word.\n")
    again = names_made(book_of(root), cache, monkeypatch)
    assert {f"blend/{blend}", "index/blend", "changes"} <= again
    shows = {f"{kind}/{entry_id}" for kind, entry_id in book.used_by[("blend", blend)]}
    assert {each for each in again if each.startswith(("blend/", "technique/", "situation/"))} <= {
        f"blend/{blend}",
        *shows,
        *(each for each in again if each.startswith("situation/")),
    }
    assert shows <= again
    assert len(again) < len(every) / 2


def test_what_else_goes_into_pages(root: Path, cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Other answers of a maker's own, another audience, another program: made anew, all that it concerns."""
    book = book_of(root)
    every = names_made(book, cache, monkeypatch)
    pages = KeptPages(cache)
    others = pages.all_made(book, "team", makers_of(book, None, "https://example.org/"))
    pages.written()
    assert [unpacked(each) for each in others] == made_anew(book, all_makers(book, "https://example.org/"))
    with_address = {each for each in every if each.startswith(("card/", "cards/"))}
    assert names_made(book, cache, monkeypatch) == with_address
    monkeypatch.setattr(kept_pages, "_program", lambda: b"another")
    assert names_made(book, cache, monkeypatch) == every


def _cut(cache: Path) -> None:
    cache.write_bytes(cache.read_bytes()[:9000])


def _spoiled(cache: Path) -> None:
    """Every page changed behind the cache's back."""
    with sqlite3.connect(cache) as database:
        database.execute("UPDATE kept SET value = X'80054E2E'")
    database.close()


def _foreign(cache: Path) -> None:
    cache.chmod(0o666)


def _garbage(cache: Path) -> None:
    cache.write_bytes(b"not a database" * 100)


def _other_table(cache: Path) -> None:
    with sqlite3.connect(cache) as database:
        database.execute("DROP TABLE kept")
        database.execute("CREATE TABLE kept (name)")
    database.close()


def _folder(cache: Path) -> None:
    cache.unlink()
    cache.mkdir()


def _of_another_program(cache: Path) -> None:
    """What was kept before an update, of a class that the update took out or gave another name."""
    with sqlite3.connect(cache) as database:
        for name, value in database.execute("SELECT name, value FROM kept").fetchall():
            given, asked, answers, _, stamp = pickle.loads(value)
            foreign = pickle.dumps((given, asked, answers, NO_LONGER_THERE, stamp))
            checked = kept_rows._checked(name, foreign)
            database.execute(
                "UPDATE kept SET value = ?, checked = ? WHERE name = ?", (foreign, checked, name)
            )
    database.close()


def _emptied(cache: Path) -> None:
    with sqlite3.connect(cache) as database:
        database.execute("UPDATE kept SET value = NULL")
    database.close()


@pytest.mark.parametrize(
    "spoil", [_cut, _spoiled, _foreign, _garbage, _other_table, _folder, _of_another_program, _emptied]
)
def test_a_cache_that_cannot_be_trusted(root: Path, cache: Path, spoil: Callable[[Path], None]) -> None:
    book = book_of(root)
    makers = some_makers(book)
    expected = made_anew(book, makers)
    made_kept(book, cache, makers=makers)
    spoil(cache)
    assert KeptPages(cache).kept == {}
    assert made_kept(book, cache, makers=makers) == expected
    assert made_kept(book, cache, makers=makers) == expected
    assert KeptPages(cache).kept or cache.is_dir()


def test_a_page_kept_under_the_name_of_another(root: Path, cache: Path) -> None:
    """What a damaged name comes to: no page of one blend may stand for another's."""
    book = book_of(root)
    makers = some_makers(book)
    made_kept(book, cache, makers=makers)
    one, other = list(book.blends)[:2]
    with sqlite3.connect(cache) as database:
        database.execute("DELETE FROM kept WHERE name = ?", (f"blend/{other}",))
        database.execute("UPDATE kept SET name = ? WHERE name = ?", (f"blend/{other}", f"blend/{one}"))
    database.close()
    assert made_kept(book, cache, makers=makers) == made_anew(book, makers)


def test_a_cache_that_somebody_else_holds(root: Path, cache: Path) -> None:
    book = book_of(root)
    makers = some_makers(book)
    made_kept(book, cache, makers=makers)
    held = sqlite3.connect(cache, isolation_level=None)
    held.execute("BEGIN EXCLUSIVE")
    try:
        assert made_kept(book, cache, makers=makers) == made_anew(book, makers)
    finally:
        held.close()


def test_every_way_into_a_book_is_noted(root: Path) -> None:
    book = book_of(root)
    blend = next(iter(book.blends))
    ways: list[tuple[Callable[[Book], object], set[tuple[str, object]]]] = [
        (lambda book: book.blends[blend], {("blends", blend)}),
        (lambda book: book.blends.get("no-such"), {("blends", "no-such")}),
        (lambda book: "no-such" in book.blends, {("blends", "no-such")}),
        (lambda book: list(book.blends), {("blends", "")}),
        (lambda book: len(book.blends), {("blends", "")}),
        (lambda book: dict(book.blends), {("blends", "")}),
        (lambda book: {**book.blends}, {("blends", "")}),
        (lambda book: list(book.blends.items()), {("blends", "")}),
        (lambda book: sorted(book.blends.keys()), {("blends", "")}),
        (lambda book: bool(book.blends), {("blends", "")}),
        (lambda book: book.used_by.get(("blend", blend)), {("used_by", ("blend", blend))}),
        (lambda book: (book.house, book.priced, book.whole), set()),
    ]
    for ask, expected in ways:
        asked: set[tuple[str, object]] = set()
        assert ask(watched(book, asked)) == ask(book)
        assert expected <= asked and bool(expected) == bool(asked)


def test_answers_differ_where_the_book_does(root: Path) -> None:
    before = Answers(book_of(root))
    changed(root / "products" / "cream-lightener.yml", "price: ", "price: 1")
    after = Answers(book_of(root))
    for ask in (("products", "cream-lightener"), ("products", "")):
        assert before.to(ask) != after.to(ask)
    for ask in (("products", "oil-lightener"), ("blends", ""), ("blends", "no-such")):
        assert before.to(ask) == after.to(ask)
    assert before.to(("blends", "no-such")) != before.to(("blends", next(iter(book_of(root).blends))))
