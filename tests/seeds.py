"""What a trial is run with every day, and what only with ``-m long``."""

from collections.abc import Iterable
from typing import Any

import pytest


def rows_with_long(everyday: Iterable[Any], others: Iterable[Any]) -> list[Any]:
    """Rows for ``parametrize`` with several arguments: those of every run, and others for ``-m long``."""
    return [*everyday, *(pytest.param(*each, marks=pytest.mark.long) for each in others)]


def with_long(everyday: Iterable[Any], others: Iterable[Any]) -> list[Any]:
    """Values for ``parametrize`` with one argument, as `rows_with_long`."""
    return rows_with_long(everyday, ((each,) for each in others))


def seeds(count: int, everyday: int = 1) -> list[Any]:
    """The seeds from 0 to ``count`` - 1 of generated input; only the first ``everyday`` run every day."""
    return with_long(range(everyday), range(everyday, count))
