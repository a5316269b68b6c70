"""Changed files told at once where the system tells of them, and otherwise within seconds."""

import os
import threading
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from watchdog.events import FileModifiedEvent, FileSystemEvent, FileSystemEventHandler
from watchdog.observers import Observer
from watchdog.observers.api import ObservedWatch

from bowlbook.book.kept import stamp_of

LOOK_EVERY = 2.0
"""Seconds from one look at all files to the next: shared and mounted folders tell of nothing."""
CHANGES = ("created", "modified", "deleted", "moved")
"""What is a change; that a file was opened, read and closed is none."""
Stamps = dict[str, tuple[int, int, int]]


@dataclass(eq=False)
class _Watch:
    """A path that is watched, and the files that the system told of since the last look."""

    handler: FileSystemEventHandler
    path: Path
    stamps: Stamps
    told: set[str] = field(default_factory=set)
    native: ObservedWatch | None = None


class _Told(FileSystemEventHandler):
    """Passes on what the system tells of a watched path, and remembers it. ``name``: of one file alone."""

    def __init__(self, watch: _Watch, name: str | None) -> None:
        self.watch, self.name = watch, name

    def dispatch(self, event: FileSystemEvent) -> None:
        """Something was done with a file."""
        paths = {os.fsdecode(path) for path in (event.src_path, event.dest_path) if path}
        names = {os.path.basename(path) for path in paths}  # noqa: PTH119
        if event.event_type in CHANGES and (self.name is None or self.name in names):
            self.watch.told.update(paths)
            self.watch.handler.dispatch(event)


class Watcher:
    """Takes the place of one of watchdog's observers.

    The system's own word comes in milliseconds and costs nothing while nothing changes. It is not given for
    folders of other machines, nor where there is no room for more watches: so all files are looked at now and
    then too, and what the system did not tell of is told then. ``before``: how paths stood earlier; what
    changed since then is told too.
    """

    def __init__(self, look_every: float = LOOK_EVERY, before: dict[Path, Stamps] | None = None) -> None:
        self.look_every = look_every
        self.before = {path.resolve(): stamps for path, stamps in (before or {}).items()}
        self.native = Observer()
        self.watches: list[_Watch] = []
        self._ended = threading.Event()
        self._net = threading.Thread(target=self._look_now_and_then, daemon=True)

    def schedule(self, handler: FileSystemEventHandler, path: str, *, recursive: bool = True) -> _Watch:
        """Tell ``handler`` of every change of a file, or of files at any depth of a folder."""
        there = Path(path).resolve()
        stamps = self.before.pop(there) if there in self.before else stamps_of(there)
        watch = _Watch(handler, there, stamps)
        self.watches.append(watch)
        with suppress(OSError):  # no room for more watches: the net remains
            if there.is_dir():
                watch.native = self.native.schedule(_Told(watch, None), str(there), recursive=recursive)
            else:  # a file that is written anew is another one: its folder knows of both
                watch.native = self.native.schedule(_Told(watch, there.name), str(there.parent))
        return watch

    def unschedule(self, watch: _Watch) -> None:
        """Tell of a path no longer."""
        self.watches.remove(watch)
        if watch.native is not None:
            self.native.unschedule(watch.native)

    def start(self) -> None:
        """Begin."""
        with suppress(OSError):
            self.native.start()
        self._net.start()

    def stop(self) -> None:
        """End."""
        self._ended.set()
        self.native.stop()

    def join(self) -> None:
        """Wait for the end."""
        for thread in (self.native, self._net):
            if thread.is_alive():
                thread.join()

    def _look_now_and_then(self) -> None:
        while not self._ended.wait(self.look_every):
            for watch in list(self.watches):
                self._look(watch)

    def _look(self, watch: _Watch) -> None:
        """Tell of what the system did not."""
        told, watch.told = watch.told, set()
        before, watch.stamps = watch.stamps, stamps_of(watch.path)
        for path in (before.keys() | watch.stamps.keys()) - told:
            if before.get(path) != watch.stamps.get(path):
                watch.handler.dispatch(FileModifiedEvent(path))


def stamps_of(path: Path) -> Stamps:
    """Every file at a path, or under it, with what is different for another; named by where it really is."""
    there = path.resolve()
    found: Stamps = {}
    for each in _files_under(there) if there.is_dir() else [there]:
        with suppress(OSError):
            found[str(each)] = stamp_of(each)
    return found


def _files_under(top: Path) -> Iterator[Path]:
    """Every file at any depth, and every link: none leads out of what is watched (`published_folders`)."""
    for folder, inner, names in os.walk(top):
        yield from (Path(folder, name) for name in names)
        yield from (path for name in inner if (path := Path(folder, name)).is_symlink())
