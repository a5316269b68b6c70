"""The small book, fresh for every test."""

from pathlib import Path

import pytest

from checks.small_book import SmallBook


@pytest.fixture
def book(tmp_path: Path) -> SmallBook:
    """The small book in a folder of its own."""
    return SmallBook(tmp_path / "recipes")
