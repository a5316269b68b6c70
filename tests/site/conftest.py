"""The small book, fresh for every test, and a configuration that builds it with the project's own pages."""

from pathlib import Path

import pytest
from small_site import config_for, small_site

from bowlbook.site.publish import publish
from checks.small_book import SmallBook


@pytest.fixture
def book(tmp_path: Path) -> SmallBook:
    """The small book in a folder of its own."""
    return SmallBook(tmp_path / "recipes")


@pytest.fixture
def config(book: SmallBook) -> Path:
    """The project's own mkdocs.yml, for the small book."""
    return config_for(book)


@pytest.fixture
def house(tmp_path: Path) -> Path:
    """A folder with nothing but a small sound site that was published once."""
    folder = tmp_path / "house"
    publish(small_site(), folder / "site")
    return folder
