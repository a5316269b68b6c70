"""The page on the library is made from the docstrings, and its examples run."""

import doctest
from pathlib import Path

from tests.api.api_page import PAGE, api_page, public

import bowlbook
from bowlbook import api


def test_the_page_is_what_the_docstrings_say() -> None:
    assert PAGE.read_text(encoding="utf-8") == api_page(), "run: python -m tests.api.api_page"


def test_every_public_name_is_on_the_page_and_has_an_example_or_is_an_error() -> None:
    assert {each.name for each in public()} == set(bowlbook.__all__)
    for name in bowlbook.__all__:
        found = getattr(bowlbook, name)
        assert ">>> " in found.__doc__ or issubclass(found, Exception)


def test_the_examples_give_what_they_show(monkeypatch) -> None:
    """All in one go, as the page is read: the book of the first example is used by the others."""
    monkeypatch.chdir(Path(__file__).parents[2])
    names: dict[str, object] = {"bowlbook": bowlbook}
    for name in ("read_book", "mix", "match", "plan"):
        for example in doctest.DocTestFinder(recurse=False).find(getattr(api, name), name, globs=names):
            result = doctest.DocTestRunner().run(example, clear_globs=False)
            names.update(example.globs)
            assert result.attempted > 0 and result.failed == 0
