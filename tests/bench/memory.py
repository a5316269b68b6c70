"""How much memory a process and those that it began have, together, at the most."""

import threading
from pathlib import Path

EVERY = 0.1
"""Seconds from one look to the next."""


class Watch:
    """Looks at a process and its own processes until the block ends. ``most`` in MB.

    Memory that several of them share is counted once: proportional set sizes (Linux, ``smaps_rollup``).
    """

    def __init__(self, process: int) -> None:
        self.process = process
        self.most = 0.0
        self._ended = threading.Event()
        self._thread = threading.Thread(target=self._look)

    def __enter__(self) -> "Watch":
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._ended.set()
        self._thread.join()

    def _look(self) -> None:
        while not self._ended.wait(EVERY):
            self.most = max(self.most, sum(map(_megabytes, family_of(self.process))))


def family_of(process: int) -> list[int]:
    """A process and those that it began, and they began."""
    try:
        text = Path(f"/proc/{process}/task/{process}/children").read_text(encoding="ascii")
    except OSError:
        return []
    return [process, *(each for child in text.split() for each in family_of(int(child)))]


def _megabytes(process: int) -> float:
    try:
        text = Path(f"/proc/{process}/smaps_rollup").read_text(encoding="ascii")
    except OSError:
        return 0
    found = [line.split()[1] for line in text.split("\n") if line.startswith("Pss:")]
    return int(found[0]) / 1024 if found else 0
