"""A build in another world, run by itself: another clock and another order of every folder's entries.

``python build_elsewhere.py RECIPES CONFIG SITE DAYS SEED``: ``DAYS`` are added to the clock, ``SEED``
shuffles (0: nothing is changed). Hash seed, time zone, locale and umask are the caller's to set.
"""

import datetime
import os
import random
import sys
import time
from pathlib import Path
from typing import Any

RECIPES, CONFIG, SITE = map(Path, sys.argv[1:4])
DAYS, SEED = int(sys.argv[4]), int(sys.argv[5])

if DAYS:
    real_time = time.time
    time.time = lambda: real_time() + DAYS * 86_400

    class LaterDate(datetime.date):
        """Today is another day."""

        @classmethod
        def today(cls) -> Any:
            return cls.fromtimestamp(time.time())

    class LaterTime(datetime.datetime):
        """So is now."""

        @classmethod
        def now(cls, tz: Any = None) -> Any:
            return cls.fromtimestamp(time.time(), tz)

        @classmethod
        def utcnow(cls) -> Any:
            return cls.fromtimestamp(time.time(), datetime.UTC).replace(tzinfo=None)

    datetime.date, datetime.datetime = LaterDate, LaterTime  # type: ignore[misc]

if SEED:
    draw = random.Random(SEED)
    real_listdir, real_scandir = os.listdir, os.scandir

    def listdir(path: Any = ".") -> list[Any]:
        names = real_listdir(path)
        draw.shuffle(names)
        return names

    class Shuffled:
        """``os.scandir`` in another order."""

        def __init__(self, path: Any = ".") -> None:
            with real_scandir(path) as entries:
                self.entries = list(entries)
            draw.shuffle(self.entries)

        def __iter__(self) -> Any:
            return iter(self.entries)

        def __next__(self) -> Any:
            if not self.entries:
                raise StopIteration
            return self.entries.pop()

        def __enter__(self) -> "Shuffled":
            return self

        def __exit__(self, *error: object) -> None:
            pass

        def close(self) -> None:
            pass

    os.listdir, os.scandir = listdir, Shuffled  # type: ignore[assignment]

from bowlbook.checks.day import today  # noqa: E402
from bowlbook.checks.judge import judge  # noqa: E402
from bowlbook.site.engine import build_into  # noqa: E402
from bowlbook.site.publish import publish  # noqa: E402

warnings: list[str] = []
judgement = judge(RECIPES, today())
publish(lambda folder: build_into(folder, CONFIG, judgement, warnings.append), SITE)
print(today(), warnings, len(judgement.findings))
