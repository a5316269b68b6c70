"""Pages stored by the last build are those that a build from nothing makes, after any edit."""

import random
import re
import sqlite3
from pathlib import Path

import pytest
from book_edits import EDITS, changed

from bench.synthetic import write_book
from bowlbook.book.audience import copy_for
from bowlbook.book.book import Book
from bowlbook.book.read_book import read_book
from bowlbook.cache import cache as cache_module
from bowlbook.cache.cache import Cache, open_cache
from bowlbook.cache.place import store_path
from bowlbook.pages.all_pages import makers_of
from bowlbook.pages.maker import Maker, Output
from bowlbook.pages.makers import ROWS
from bowlbook.pages.page import Document, Page, Piece
from bowlbook.pages.search_index import indexed
from bowlbook.site import book_pages
from bowlbook.site.book_pages import CONTENT, HEAD, PIECE, DocumentHead, Finished, pages_of

SITE = "https://example.org/book/"


def book_of(root: Path) -> Book:
    found = read_book(root)
    assert found.book is not None and found.book.whole, found.findings
    return found.book


def all_makers(book: Book, address: str = SITE) -> list[Maker]:
    return makers_of(book, None, address)


def some_makers(book: Book) -> list[Maker]:
    """Makers of each kind: alone, of pieces, and of documents; without those that look at every head."""
    kinds = (
        "home",
        "index/blend",
        "index/product",
        "index/situation",
        "blend/",
        "product/",
        "weighing",
        "technique/",
        "cards/",
    )
    return [each for each in all_makers(book) if each.name.startswith(kinds)]


Shown = tuple[object, ...]
"""All of a page or document, a page's words for search as they are listed."""


def from_nothing(book: Book, makers: list[Maker] | None = None) -> list[Shown]:
    """What the makers make of a book that records nothing, in one go."""
    makers = all_makers(book) if makers is None else makers
    by_name = {each.name: each for each in makers}
    made: dict[str, list[Output]] = {}

    def outputs(name: str) -> list[Output]:
        if name not in made:
            pieces = [piece(*need) for need in by_name[name].needs]
            made[name] = list(by_name[name].make(book, pieces))
        return made[name]

    def piece(maker: str, name: str) -> object:
        found = {each.name: each.value for each in outputs(maker) if isinstance(each, Piece)}
        return found[name]

    for name in by_name:
        outputs(name)
    every = [each for maker in makers for each in made[maker.name]]
    return [shown(each) for each in every if not isinstance(each, Piece)]


def shown(made: Page | Document) -> Shown:
    if isinstance(made, Document):
        return made.path, made.text
    search = indexed(made.address, made.search) if made.search else None
    return made.address, made.title, made.description, made.body, made.headings, search


def stored(book: Book, root: Path, audience: str = "team", makers: list[Maker] | None = None) -> list[Shown]:
    """What is made over what was stored before."""
    with open_cache(root) as cache:
        made = pages_of(cache, book, audience, all_makers(book) if makers is None else makers)
        return [unpacked(each) for each in made]


def unpacked(made: Finished) -> Shown:
    head, text = made.head, made.content.decode()
    if isinstance(head, DocumentHead):
        return head.path, text
    return head.address, head.title, head.description, text, head.headings, head.search


@pytest.fixture
def root(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path / "cache"))
    write_book(tmp_path / "recipes", 7)
    return tmp_path / "recipes"


@pytest.mark.parametrize("seed", [1, *(pytest.param(seed, marks=pytest.mark.long) for seed in range(2, 12))])
def test_after_any_edits_in_any_order(root: Path, seed: int) -> None:
    """Every kind of edit (in the everyday run one, a deletion), in random order, both audiences by turns."""
    draw = random.Random(seed)
    edits = [*EDITS, *draw.choices(EDITS, k=4)]
    draw.shuffle(edits)
    edits = edits[1:2] if seed == 1 else edits
    stored(book_of(root), root)
    for edit in edits:
        edit(root, draw)
        book = book_of(root)
        assert stored(book, root) == from_nothing(book), edit.__name__
        if draw.random() < 0.2:
            public = copy_for(book, "public")
            assert stored(public, root, "public") == from_nothing(public), edit.__name__


def names_made(
    book: Book, root: Path, monkeypatch: pytest.MonkeyPatch, makers: list[Maker] | None = None
) -> set[str]:
    """The makers that a build had to run."""
    ran: set[str] = set()
    with monkeypatch.context() as patch:
        patch.setenv("BOWLBOOK_PROCESSES", "1")
        run = book_pages._Job.run
        patch.setattr(book_pages._Job, "run", lambda job: (ran.add(job.maker.name), run(job))[1])
        stored(book, root, makers=makers)
    return ran


def test_an_edit_makes_its_own_pages_and_those_that_show_it(
    root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = book_of(root)
    every = names_made(book, root, monkeypatch)
    assert every == {maker.name for maker in makers_of(book, None, SITE)}
    assert names_made(book, root, monkeypatch) == set()
    blend = next(entry_id for kind, entry_id in book.used_by if kind == "blend")
    changed(root / "blends" / f"{blend}.yml", "notes: |\n", "notes: |\n  One more word.\n")
    again = names_made(book_of(root), root, monkeypatch)
    assert again == {f"blend/{blend}"}  # its notes are on its own page alone
    changed(root / "blends" / f"{blend}.yml", "name: ", "name: A new ")
    renamed = names_made(book_of(root), root, monkeypatch)
    shows = {f"{kind}/{entry_id}" for kind, entry_id in book.used_by[("blend", blend)]}
    assert {f"blend/{blend}", "index/blend", "dates", "weighing", "changes", *shows} <= renamed
    assert len(renamed) < len(every)


@pytest.mark.long
def test_what_else_goes_into_pages(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Other answers of a maker's own, another audience, another program: all that is concerned is made."""
    book = book_of(root)
    every = names_made(book, root, monkeypatch)
    others = makers_of(book, None, "https://example.org/")
    assert stored(book, root, makers=others) == from_nothing(book, others)
    with_address = {each for each in every if each.startswith(("blend/", "technique/", "cards/"))}
    assert names_made(book, root, monkeypatch) == with_address
    monkeypatch.setattr(cache_module, "program_digest", lambda: b"another")
    assert names_made(book, root, monkeypatch) == every


def _spoiled(root: Path, row: str) -> None:
    """Every value of a kind changed behind the cache's back."""
    path = store_path(root)
    assert path is not None
    with sqlite3.connect(path) as database:
        count = database.execute("UPDATE results SET value = X'80054E2E' WHERE kind = ?", (row,)).rowcount
    database.close()
    assert count > 0


@pytest.mark.parametrize("kind", [HEAD, CONTENT, f"{PIECE} {ROWS}"])
def test_damaged_results_are_made_again(root: Path, kind: str) -> None:
    book = book_of(root)
    makers = some_makers(book)
    expected = from_nothing(book, makers)
    stored(book, root, makers=makers)
    _spoiled(root, kind)
    assert stored(book, root, makers=makers) == expected
    assert stored(book, root, makers=makers) == expected


@pytest.mark.long
def test_another_refusal_reaches_whatever_is_matched(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    book = book_of(root)
    stored(book, root)
    blend = next(each for each in book.blends.values() if not each.tones and each.not_for)
    changed(root / "blends" / f"{blend.id}.yml", "because: ", "because: Also ")
    book = book_of(root)
    assert {"practice", "pick", "heads/coarse-hair/"} <= names_made(book, root, monkeypatch)
    assert stored(book, root) == from_nothing(book)


def test_a_lost_piece_is_made_again(root: Path) -> None:
    book = book_of(root)
    makers = some_makers(book)
    expected = from_nothing(book, makers)
    stored(book, root, makers=makers)
    path = store_path(root)
    assert path is not None
    with sqlite3.connect(path) as database:
        database.execute("DELETE FROM results WHERE kind = ?", (f"{PIECE} {ROWS}",))
    database.close()
    assert stored(book, root, makers=makers) == expected


def test_without_a_store(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each maker runs once, also where its pieces are for many others."""
    monkeypatch.setenv("BOWLBOOK_PROCESSES", "1")
    runs: list[str] = []
    made_by = book_pages._Job._made
    monkeypatch.setattr(
        book_pages._Job, "_made", lambda job, lookups: (runs.append(job.name), made_by(job, lookups))[1]
    )
    book = book_of(root)
    makers = some_makers(book)
    made = pages_of(Cache(), book, "team", makers)
    assert sorted(runs) == sorted(f"team {each.name}" for each in makers)
    assert [unpacked(each) for each in made] == from_nothing(book, makers)


def test_the_first_price_of_a_book_shows_on_every_page_with_costs(root: Path) -> None:
    """Also on the pages of blends that do not use the product: they say that a price is missing."""
    for file in (root / "products").glob("*.yml"):
        text = file.read_text(encoding="utf-8")
        file.write_text(re.sub(r", price: [^,}]+, priced_on: [-0-9]+", "", text), encoding="utf-8")
    without = book_of(root)
    assert not without.priced
    stored(without, root, makers=some_makers(without))
    changed(
        root / "products" / "developer-40.yml", "net: 1 L", "net: 1 L, price: 9.00, priced_on: 2026-09-01"
    )
    book = book_of(root)
    assert book.priced
    makers = some_makers(book)
    assert stored(book, root, makers=makers) == from_nothing(book, makers)


def test_a_build_that_is_cut_short_is_taken_up_where_it_ended(
    root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each portion of results is in the store before the next one is made."""
    monkeypatch.setattr(cache_module, "PORTION", 1)
    book = book_of(root)
    run = book_pages._Job.run
    begun: list[str] = []

    def cut_short(job: book_pages._Job) -> object:
        if len(begun) == 5:
            raise KeyboardInterrupt
        begun.append(job.maker.name)
        return run(job)

    with monkeypatch.context() as patch, pytest.raises(KeyboardInterrupt):
        patch.setenv("BOWLBOOK_PROCESSES", "1")
        patch.setattr(book_pages._Job, "run", cut_short)
        pages_of(open_cache(root), book, "team", some_makers(book))  # never closed, as where it is killed
    assert names_made(book, root, monkeypatch, some_makers(book)).isdisjoint(begun)


def test_no_text_and_no_piece_is_held_after_its_use(root: Path) -> None:
    """Else all pages of a site are in memory until the last one is written."""
    book = book_of(root)
    with open_cache(root) as cache:
        made = pages_of(cache, book, "team", some_makers(book))
        assert all(each.content for each in made)
        assert not any("contents" in vars(each.job) or each.job.pieces for each in made)


def test_an_entrys_piece_is_held_while_one_maker_runs(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Else each process holds all that the makers of a round take, until the last of them has run."""
    monkeypatch.setenv("BOWLBOOK_PROCESSES", "1")
    run = book_pages._Job.run
    ran: list[str] = []

    def watched(job: book_pages._Job) -> object:
        made = run(job)
        assert not any(each.pieces for each, _ in job.needs)
        ran.extend(job.maker.name for _ in job.needs[:1])
        return made

    monkeypatch.setattr(book_pages._Job, "run", watched)
    book = book_of(root)
    with open_cache(root) as cache:
        pages_of(cache, book, "team", some_makers(book))
    assert {"index/blend", "weighing", "cards/house-1/"} <= set(ran)
