"""Faults and kills at every file-system call of replacing files; run by itself: an audit hook stays.

``python replacing_driver.py FOLDER {raise|kill} {once|twice} {replace|create}`` writes two product files
again and again, over old ones or as new ones, each time with a fault at the next call that Python audits (its
documentation, "Audit events table"), until a run meets none. ``twice``: the run that finishes is killed too,
at each of its calls. Prints one line of JSON.
"""

import errno
import json
import os
import shutil
import signal
import sys
from collections.abc import Callable
from pathlib import Path

from bowlbook.book.folder import JOURNAL
from bowlbook.book.replacing import NotReplaced, create_all, finish, replace_all

CALLS = ("open", "os.", "shutil.", "tempfile.", "pathlib.")
OLD, NEW = b"name: Old\n", b"name: New and longer\n"
NAMES = ("clay", "foil")
CREATES = sys.argv[4:] == ["create"]


class Faults:
    """Counts the calls while armed, and spoils the one that is wanted."""

    def __init__(self, kill: bool) -> None:
        self.kill, self.wanted, self.count, self.armed = kill, 0, 0, False

    def __call__(self, event: str, arguments: tuple[object, ...]) -> None:
        if not self.armed or not event.startswith(CALLS):
            return
        self.count += 1
        if self.count == self.wanted:
            if self.kill:
                os.kill(os.getpid(), signal.SIGKILL)
            raise OSError(errno.ENOSPC, "No space left on device", event)

    def killed_in(self, work: Callable[[], object]) -> bool:
        """Run the work in a process that the wanted call kills. Returns whether it was reached."""
        child = os.fork()
        if child == 0:
            self.count, self.armed = 0, True
            work()
            self.armed = False
            os._exit(0)
        status = os.waitpid(child, 0)[1]
        assert os.WIFSIGNALED(status) or status == 0, status
        return os.WIFSIGNALED(status)


def fresh(folder: Path) -> None:
    shutil.rmtree(folder, ignore_errors=True)
    (folder / "products").mkdir(parents=True)
    for name in () if CREATES else NAMES:
        (folder / "products" / f"{name}.yml").write_bytes(OLD)


def replace_them(folder: Path) -> None:
    paths = [folder / "products" / f"{name}.yml" for name in NAMES]
    if CREATES:
        create_all(folder, dict.fromkeys(paths, NEW))
    else:
        replace_all(folder, dict.fromkeys(paths, (OLD, NEW)))


def state_of(folder: Path) -> str:
    """Which contents the files have. Nothing but the two may be among the products."""
    there = {path.name: path.read_bytes() for path in (folder / "products").iterdir()}
    assert there.keys() <= {f"{name}.yml" for name in NAMES} and (CREATES or len(there) == len(NAMES))
    found = {there.get(f"{name}.yml", OLD) for name in NAMES}
    return {(OLD,): "old", (NEW,): "new"}.get(tuple(found), "mixed")


def main(folder: Path, how: str, times: str) -> dict[str, int]:
    faults, later = Faults(how == "kill"), Faults(kill=True)
    sys.addaudithook(faults)
    sys.addaudithook(later)
    seen = {"tried": 0, "finished": 0, "old": 0, "new": 0, "mixed": 0, "mixed until finished": 0}
    reached = True
    while reached:
        faults.wanted += 1
        later.wanted = 1
        while True:
            fresh(folder)
            reached = try_once(faults, folder)
            at_first = state_of(folder)
            if at_first == "mixed":
                assert how == "kill" and (folder / JOURNAL).is_dir()
                seen["mixed until finished"] += 1
            again = times == "twice" and later.killed_in(lambda: finish(folder))
            state_of(folder)
            if finish(folder) is not None:
                seen["finished"] += 1
            seen["tried"] += 1
            seen[state_of(folder)] += 1
            # A kill between the decision and the first file leaves the old ones, and the next run completes.
            assert state_of(folder) == at_first or (how == "kill" and at_first != "new")
            left = sorted(path.name for path in folder.iterdir())
            assert left == ["products"], (faults.wanted, later.wanted, left)
            later.wanted += 1
            if not again:
                break
    return seen


def try_once(faults: Faults, folder: Path) -> bool:
    """Replace the files with the wanted fault. Returns whether it was reached."""
    if faults.kill:
        return faults.killed_in(lambda: replace_them(folder))
    faults.count, faults.armed = 0, True
    try:
        replace_them(folder)
    except NotReplaced as error:
        assert "Nothing was taken over." in str(error), error
    finally:
        faults.armed = False
    return faults.count >= faults.wanted


if __name__ == "__main__":
    print(json.dumps(main(Path(sys.argv[1]), sys.argv[2], sys.argv[3])))
