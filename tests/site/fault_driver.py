"""Faults and kills at every file-system call of publishing, run by itself: an audit hook cannot be taken out.

``python fault_driver.py FOLDER {raise|kill} {exchange|renames}`` publishes over an earlier site again and
again, each time with a fault at the next call that Python audits (its documentation, "Audit events table"),
until a run meets none. It prints one line of JSON.
"""

import errno
import json
import os
import shutil
import signal
import sys
from pathlib import Path

from site_states import after_clearing_up, state_of
from small_site import small_site

from bowlbook.site import publish as room
from bowlbook.site.publish import publish

CALLS = ("open", "os.", "shutil.", "tempfile.", "fcntl.", "ctypes.", "pathlib.")


class Faults:
    """Counts the calls while armed, and spoils the one that is wanted."""

    def __init__(self, kill: bool) -> None:
        self.kill, self.wanted, self.count, self.armed = kill, 0, 0, False
        self.calls: set[str] = set()

    def __call__(self, event: str, arguments: tuple[object, ...]) -> None:
        if not self.armed or not event.startswith(CALLS):
            return
        self.count += 1
        self.calls.add(event)
        if self.count == self.wanted:
            if self.kill:
                os.kill(os.getpid(), signal.SIGKILL)
            raise OSError(errno.EIO, "a fault, for this test", event)


def published(word: str, site: Path) -> None:
    """Publish a small site with the folders of the one before."""
    publish(small_site(word), site, folders=site.parent.with_name("kept.folders"))


def main(folder: Path, how: str, swapping: str) -> dict[str, object]:
    faults = Faults(how == "kill")
    sys.addaudithook(faults)
    if swapping == "renames":
        room._exchange = lambda one, other: False
    site = folder / "site"
    seen = {"old": 0, "new": 0, "none": 0, "mixed": 0}
    reached = True
    while reached:
        faults.wanted += 1
        shutil.rmtree(folder, ignore_errors=True)
        published("first", site)
        reached = try_once(faults, site)
        state = state_of(site)
        seen[state] += 1
        if state == "none":  # between two renames: the next build, whatever comes of it, brings a site back
            assert after_clearing_up(site) == "old"
        published("second", site)
        assert state_of(site) == "new"
        left = sorted(path.name for path in folder.iterdir())
        assert left == ["site"], (faults.wanted, left)
    return {"tried": faults.wanted - 1, "calls": sorted(faults.calls), **seen}


def try_once(faults: Faults, site: Path) -> bool:
    """Publish the second site with the wanted fault. Returns whether it was reached."""
    faults.count = 0
    if faults.kill:
        child = os.fork()
        if child == 0:
            faults.armed = True
            published("second", site)
            faults.armed = False
            os._exit(0)
        status = os.waitpid(child, 0)[1]
        assert os.WIFSIGNALED(status) or status == 0
        return os.WIFSIGNALED(status)
    faults.armed = True
    try:
        published("second", site)
    except OSError as error:
        if error.errno != errno.EIO:
            raise
    finally:
        faults.armed = False
    return faults.count >= faults.wanted


if __name__ == "__main__":
    print(json.dumps(main(Path(sys.argv[1]), sys.argv[2], sys.argv[3])))
