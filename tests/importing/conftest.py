"""The house that tables are imported into, fresh for every test."""

from pathlib import Path

import pytest

from importing.house_of_import import write_house


@pytest.fixture
def house(tmp_path: Path) -> Path:
    """The folder of the house's book."""
    return write_house(tmp_path / "recipes")
