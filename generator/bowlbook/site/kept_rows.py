"""Rows of bytes by name, kept in a database of the user's own, each believed only where it is whole.

For what is too much to be read and written whole each time, as `bowlbook.book.kept` does. A database that is
damaged, foreign or locked is no database: what it held is worked out anew.
"""

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing, suppress
from pathlib import Path

from bowlbook.book.kept import digest, is_own

TABLE = "CREATE TABLE IF NOT EXISTS kept (name TEXT PRIMARY KEY, value BLOB, checked BLOB)"
READ = "SELECT name, value, checked FROM kept"
WRITE = "INSERT OR REPLACE INTO kept VALUES (?, ?, ?)"
DELETE = "DELETE FROM kept WHERE name = ?"
WAIT = 0.2
"""Seconds to wait for another build that holds the database, before going on without it."""


class KeptRows:
    """The rows of one database. Without a path nothing is kept."""

    def __init__(self, path: Path | None) -> None:
        self.path = path

    def every(self) -> Iterator[tuple[str, bytes]]:
        """All rows that are whole."""
        if self.path is None or not is_own(self.path):
            return
        with suppress(sqlite3.Error), closing(sqlite3.connect(self.path, timeout=WAIT)) as database:
            for name, value, checked in database.execute(READ):
                with suppress(AttributeError, TypeError):  # not even text and bytes
                    if _checked(name, value) == checked:
                        yield name, value

    def write(self, fresh: Iterable[tuple[str, bytes]], still: Iterable[str]) -> None:
        """Write what is new, and keep of the rest what is ``still`` wanted, as far as that can be done."""
        if self.path is None:
            return
        with suppress(sqlite3.Error, OSError):
            if not is_own(self.path):
                self.path.unlink(missing_ok=True)
                self.path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
                self.path.touch(0o600)
            try:
                self._write(fresh, set(still))
            except sqlite3.Error as error:
                if error.sqlite_errorcode != sqlite3.SQLITE_BUSY:  # damaged, or of another form: begin anew
                    self.path.unlink()

    def _write(self, fresh: Iterable[tuple[str, bytes]], still: set[str]) -> None:
        assert self.path is not None
        with closing(sqlite3.connect(self.path, timeout=WAIT)) as database, database:
            database.execute("PRAGMA synchronous = OFF")  # each row is checked when it is read
            database.execute(TABLE)
            for name, value in fresh:
                database.execute(WRITE, (name, value, _checked(name, value)))
                still.add(name)
            kept = [name for (name,) in database.execute("SELECT name FROM kept")]
            database.executemany(DELETE, [(name,) for name in kept if name not in still])


def _checked(name: str, value: bytes) -> bytes:
    """What stands for a whole row."""
    return digest(name.encode(), value)
