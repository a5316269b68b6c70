"""Builds of a real book killed at random moments, or run two at a time; run by itself, since it forks.

``python kill_driver.py FOLDER SEED COUNT {kill|two}`` goes on until so many builds were killed, or so many
pairs ended, and prints one line of JSON.
"""

import json
import os
import random
import signal
import sys
import time
from pathlib import Path

from small_site import bytes_of, config_for

from bowlbook.checks.judge import judge
from bowlbook.site.engine import build_into
from bowlbook.site.publish import publish
from checks.small_book import BLEND_FILE, DAY, SmallBook


class Version:
    """One state of the small book: how it is built, and every byte of its site."""

    def __init__(self, folder: Path, note: str) -> None:
        folder.mkdir(parents=True)
        book = SmallBook(folder / "recipes")
        book.add(BLEND_FILE, f"notes: {note}\n")
        self.config = config_for(book)
        self.judgement = judge(book.root, DAY)
        assert self.judgement.findings == []
        publish(self.build, folder / "site")
        began = time.monotonic()
        publish(self.build, folder / "site")
        self.seconds = time.monotonic() - began
        self.bytes = bytes_of(folder / "site")

    def build(self, folder: Path) -> None:
        """Build this version into an empty folder."""
        build_into(folder, self.config, self.judgement, lambda text: None)


def forked(version: Version, site: Path) -> int:
    child = os.fork()
    if child == 0:
        publish(version.build, site, folders=site.parents[1] / "kept.folders")
        os._exit(0)
    return child


def main(folder: Path, seed: int, count: int, how: str) -> dict[str, int]:
    draw = random.Random(seed)
    versions = [Version(folder / "one", "The first."), Version(folder / "two", "The second.")]
    assert versions[0].bytes != versions[1].bytes
    site = folder / "house" / "site"
    publish(versions[0].build, site)
    standing = 0
    seen = {"killed": 0, "ended": 0, "old": 0, "new": 0, "mixed": 0}
    while (seen["killed"] if how == "kill" else seen["ended"] / 2) < count:
        other = 1 - standing
        children = [forked(versions[other], site)]
        if how == "kill":
            from_ = draw.choice([0, 0.8])  # as many in the last fifth, where it is looked over and swapped
            time.sleep(draw.uniform(from_, 1.2) * versions[other].seconds)
            os.kill(children[0], signal.SIGKILL)
        else:
            time.sleep(draw.uniform(0, versions[other].seconds))
            children.append(forked(versions[standing], site))
        for child in children:
            status = os.waitpid(child, 0)[1]
            assert how == "kill" or status == 0
            seen["killed" if os.WIFSIGNALED(status) else "ended"] += 1
        found = bytes_of(site)
        if found == versions[standing].bytes:
            seen["old"] += 1
        elif found == versions[other].bytes:
            seen["new"] += 1
            standing = other
        else:
            seen["mixed"] += 1
    publish(versions[0].build, site)
    assert bytes_of(site) == versions[0].bytes
    left = [path.name for path in site.parent.iterdir()]
    assert left == ["site"], left
    return seen


if __name__ == "__main__":
    print(json.dumps(main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]), sys.argv[4])))
