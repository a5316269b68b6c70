"""Seeds of trials with generated input: some for every run, the others for the long one."""

from typing import Any

import pytest


def seeds(count: int, everyday: int = 1) -> list[Any]:
    """The seeds from 0 to ``count`` - 1; only the first ``everyday`` run without ``-m long``."""
    return [
        *range(everyday),
        *(pytest.param(seed, marks=pytest.mark.long) for seed in range(everyday, count)),
    ]
