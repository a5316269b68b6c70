"""A configuration that builds the small book with the project's own pages, and a site that was published."""

from pathlib import Path

import pytest
from small_site import config_for, small_site

from bowlbook.site.publish import publish
from checks.small_book import SmallBook


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
