"""strength-mismatch: a developer's per cent against its volumes.

Nominal pairs 10/20/30/40 volume = 3/6/9/12 %: Regulation (EC) 1223/2009, Annex III, entry 12, as replaced by
Regulation (EU) 2019/831 (pairs 12 % with 40 volumes). Exact: 1 volume is 0.303513 % w/v (oxygen at 0 °C and
1 atm; scipy's molar volume, molmass' molar mass of hydrogen peroxide).
"""

import pytest

from checks.small_book import DEVELOPER_FILE, SmallBook

BOTH = "volume: 20\nperoxide: 6 %"


@pytest.mark.parametrize("percent", ["12 %", "3 %", "6.61 %", "5.39 %"])
def test_two_that_do_not_go_together(book: SmallBook, percent: str) -> None:
    book.shows((DEVELOPER_FILE, BOTH, f"volume: 20\nperoxide: «strength-mismatch»{percent}"), findings=1)


@pytest.mark.parametrize("percent", ["\nperoxide: 6.6 %", "\nperoxide: 5.4 %", ""])
def test_a_tenth_either_way_passes_and_left_out_it_is_the_nominal(book: SmallBook, percent: str) -> None:
    book.shows((DEVELOPER_FILE, BOTH, f"volume: 20{percent}"), findings=0)


@pytest.mark.parametrize("volume", [5, 10, 20, 29])
@pytest.mark.parametrize("per_volume", [0.3, 0.303513])
def test_the_nominal_and_the_exact_map_pass(book: SmallBook, volume: int, per_volume: float) -> None:
    book.edit(DEVELOPER_FILE, "name: Developer 20", "name: Clear developer")
    book.edit(DEVELOPER_FILE, BOTH, f"volume: {volume}\nperoxide: {volume * per_volume:.4f} %")
    book.shows(findings=0)
