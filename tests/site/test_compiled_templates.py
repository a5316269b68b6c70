"""Templates are compiled before pages are shared among processes, not once in each of them."""

import pytest
from jinja2 import Environment

from bowlbook.book.book import Book
from bowlbook.cache.cache import Cache
from bowlbook.cache.processes import FEWEST
from bowlbook.pages import render
from bowlbook.pages.maker import Maker
from bowlbook.site import book_pages


@pytest.fixture
def compiled(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The templates that are compiled, from none on."""
    names: list[str] = []
    compile_one = Environment.compile
    monkeypatch.setattr(
        Environment,
        "compile",
        lambda self, source, name, filename: names.append(name) or compile_one(self, source, name, filename),
    )
    monkeypatch.setattr(render, "_environment", render._environment.__wrapped__)
    environment = render._environment()
    monkeypatch.setattr(render, "_environment", lambda: environment)
    return names


@pytest.mark.parametrize("count", [FEWEST - 1, FEWEST])
def test_where_others_may_be_begun_all_are_compiled_first(
    compiled: list[str], demo_book: Book, monkeypatch: pytest.MonkeyPatch, count: int
) -> None:
    before: list[int] = []
    monkeypatch.setattr(book_pages, "all_made", lambda jobs: before.append(len(compiled)) or ())
    makers = [
        Maker(f"timing {each}", "bowlbook.pages.timing_log_page:timing_log_page") for each in range(count)
    ]
    book_pages._jobs_of(Cache(), demo_book, "team", makers)
    every = sorted(path.name for path in render.TEMPLATES.rglob("*") if path.is_file())
    assert before == [len(every) if count == FEWEST else 0]
    assert sorted(name.rpartition("/")[2] for name in compiled) == (every if count == FEWEST else [])
