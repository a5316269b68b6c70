"""Rows of bytes in one SQLite file a book: read row by row, written in one transaction.

A store that is damaged, foreign or of another form is begun again; one that is locked is gone without. Both
cost time and nothing else, since every value can be made again.
"""

import os
import sqlite3
import time
from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from bowlbook.cache.digest import SAFELY
from bowlbook.cache.place import is_private, make_private

Key = tuple[str, str]
"""The kind of a result, and its name among those of its kind."""
TABLE = """\
CREATE TABLE IF NOT EXISTS results (
  kind TEXT, name BLOB, inputs BLOB, lookups BLOB, digest BLOB, used BLOB, value BLOB,
  PRIMARY KEY (kind, name)
)"""
"""With row ids: without them SQLite keeps values in the index, and takes twice as long to write them."""
WRITE = """\
INSERT OR REPLACE INTO results (kind, name, inputs, lookups, digest, used, value)
  VALUES (?, ?, ?, ?, ?, ?, ?)"""
USE = "UPDATE results SET used = ? WHERE kind = ? AND name = ?"
WAIT = 0.2
"""Seconds to wait for another program that holds the store."""
DAY = 86_400
LARGEST = 1 << 30
"""Bytes that a store may grow to. Then the rows that were not used for the longest time go."""


class Row(NamedTuple):
    """A stored result without its value.

    ``inputs``: the digest of everything it was made from. ``lookups``: what was looked up while it was made,
    empty where nothing was recorded. ``digest``: that of its value. ``used``: the day on which it was last
    used, as `today` gives it.
    """

    inputs: bytes
    lookups: bytes
    digest: bytes
    used: bytes


def today() -> bytes:
    """The day, in days since 1970, as bytes: a later one sorts behind an earlier one."""
    return int(time.time() // DAY).to_bytes(4, "big")


class Store:
    """The rows of one file. Every error of SQLite's means: no rows, or none written."""

    def __init__(self, path: Path, largest: int = LARGEST) -> None:
        self.path = path
        self.largest = largest
        self._connection: sqlite3.Connection | None = None
        self._process = 0

    def results(self, kind: str) -> dict[str, tuple[Row, bytes]]:
        """All rows of a kind with their values, by name: for small ones, which are all wanted."""
        query = "SELECT inputs, lookups, digest, used, value, name FROM results WHERE kind = ?"
        found = {}
        for *row, value, name in self._found(query, kind):
            try:
                found[name.decode(*SAFELY)] = (Row(*row), value)
            except UnicodeDecodeError:  # a damaged name
                continue
        return found

    def result(self, kind: str, name: str) -> tuple[Row, bytes] | None:
        """One row with its value; None where there is none."""
        query = "SELECT inputs, lookups, digest, used, value FROM results WHERE kind = ? AND name = ?"
        found = self._found(query, kind, name.encode(*SAFELY))
        return next(((Row(*rest), value) for *rest, value in found), None)

    def value(self, kind: str, name: str) -> bytes | None:
        """One value; None where there is none."""
        query = "SELECT value FROM results WHERE kind = ? AND name = ?"
        return next((value for (value,) in self._found(query, kind, name.encode(*SAFELY))), None)

    def write(self, fresh: Mapping[Key, tuple[Row, bytes]], used: Iterable[Key]) -> None:
        """Write new rows, and that these others were used today."""
        with suppress(sqlite3.Error, OSError):
            try:
                self._write(fresh, used)
            except sqlite3.Error as error:
                # Another program that holds it is no damage: it writes its own rows now.
                code = getattr(error, "sqlite_errorcode", 0) & 0xFF  # SQLite's primary one
                if code not in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
                    self.close()
                    self.path.unlink(missing_ok=True)
                    self._write(fresh, ())

    def __del__(self) -> None:
        self.close()

    def close(self) -> None:
        """Close the file."""
        if self._connection is not None and self._is_open():
            self._connection.close()
        self._connection = None

    def _found(self, query: str, *given: object) -> list[tuple[bytes, ...]]:
        """The rows that a query finds, of bytes throughout."""
        if not self._is_open() and not is_private(self.path):
            return []
        try:
            found = self._open().execute(query, given).fetchall()
        except sqlite3.Error:
            return []
        return [row for row in found if all(type(each) is bytes for each in row)]

    def _write(self, fresh: Mapping[Key, tuple[Row, bytes]], used: Iterable[Key]) -> None:
        if not is_private(self.path):
            self.close()
            make_private(self.path)
        with self._open() as connection:
            connection.execute(TABLE)
            # The rows of a kind one after another: they are read together.
            of_kinds = sorted(fresh.items(), key=lambda each: each[0][0])
            rows = ((kind, name.encode(*SAFELY), *row, value) for (kind, name), (row, value) in of_kinds)
            connection.executemany(WRITE, rows)
            connection.executemany(USE, ((today(), kind, name.encode(*SAFELY)) for kind, name in used))
            self._shrink(connection)

    def _shrink(self, connection: sqlite3.Connection) -> None:
        """Delete the rows that were not used for the longest time, until the rest fits."""
        size = "SELECT TOTAL(LENGTH(value) + LENGTH(lookups)) FROM results"
        if self.path.stat().st_size <= self.largest:  # the sum need not be asked for
            return
        over = connection.execute(size).fetchone()[0] - self.largest
        oldest = "SELECT kind, name, LENGTH(value) + LENGTH(lookups) FROM results ORDER BY used"
        for kind, name, length in connection.execute(oldest).fetchall() if over > 0 else ():
            connection.execute("DELETE FROM results WHERE kind = ? AND name = ?", (kind, name))
            over -= length
            if over <= 0:
                break

    def _is_open(self) -> bool:
        # SQLite's documentation: a connection must not be carried across a fork.
        return self._connection is not None and self._process == os.getpid()

    def _open(self) -> sqlite3.Connection:
        if self._connection is None or not self._is_open():
            self._connection = sqlite3.connect(self.path, timeout=WAIT, check_same_thread=False)
            self._process = os.getpid()
            # No waiting for the disk: each value is held against its digest when it is read.
            self._connection.execute("PRAGMA synchronous = OFF")
            self._connection.execute("PRAGMA journal_mode = MEMORY")
        return self._connection
