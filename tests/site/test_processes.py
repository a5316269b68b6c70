"""Work shared out over processes: the same answer in the same order, and no fault lost."""

import os
import threading

import pytest

from generator.site.processes import FEWEST, all_made, processes_at_hand


def makers(count: int, broken: int | None = None):
    def maker(number: int):
        if number == broken:
            raise ValueError(f"maker {number}")
        return [(number, each) for each in range(number % 3)]

    return [lambda number=number: maker(number) for number in range(count)]


@pytest.mark.parametrize("count", [0, 1, FEWEST, FEWEST + 7])
@pytest.mark.parametrize("processes", [1, 2, 3, 5])
def test_in_order(count: int, processes: int) -> None:
    assert all_made(makers(count), processes) == [made for maker in makers(count) for made in maker()]


@pytest.mark.parametrize("broken", [0, 1, 2, FEWEST - 1])
def test_a_fault_in_any_of_them_is_raised_here(broken: int) -> None:
    with pytest.raises(ValueError, match=f"maker {broken}"):
        all_made(makers(FEWEST, broken), 3)


def test_a_process_that_ends_is_noticed() -> None:
    here = os.getpid()
    work = makers(FEWEST)
    work[1] = lambda: [] if os.getpid() == here else os._exit(3)
    with pytest.raises(ChildProcessError):
        all_made(work, 2)


def test_no_fork_beside_other_threads(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOWLBOOK_PROCESSES", "4")
    done = threading.Event()
    waiting = threading.Thread(target=done.wait)
    waiting.start()
    assert processes_at_hand() == 1
    done.set()
    waiting.join()
