"""The small book, fresh for every test, and a configuration that builds it with the project's own pages."""

from pathlib import Path

import pytest
from checks.small_book import SmallBook
from small_site import ROOT


@pytest.fixture
def book(tmp_path: Path) -> SmallBook:
    """The small book in a folder of its own."""
    return SmallBook(tmp_path / "recipes")


@pytest.fixture
def config(book: SmallBook) -> Path:
    """The project's own mkdocs.yml, for the small book."""
    path = book.root.parent / "mkdocs.yml"
    path.write_text(
        f"INHERIT: {ROOT / 'mkdocs.yml'}\n"
        f"docs_dir: {ROOT / 'docs'}\n"
        f"plugins: [{{bowlbook: {{recipes: {book.root}}}}}]\n",
        encoding="utf-8",
    )
    return path
