"""Reports changed files: at once where the system notifies of them, otherwise within seconds by polling."""

import os
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

from watchdog.events import FileModifiedEvent, FileSystemEvent, FileSystemEventHandler
from watchdog.observers import Observer
from watchdog.observers.api import BaseObserver, ObservedWatch
from watchdog.observers.polling import PollingObserverVFS
from watchdog.utils.dirsnapshot import DirectorySnapshot, DirectorySnapshotDiff

POLL_EVERY = 2.0
"""Seconds between two polls: shared and mounted folders notify of nothing."""
CHANGES = ("created", "modified", "deleted", "moved")
"""What is a change; that a file was opened, read and closed is none."""
Snapshots = dict[Path, DirectorySnapshot]


def snapshots_of(paths: Iterable[str]) -> Snapshots:
    """How files and folders are now."""
    return {path: _snapshot(path) for each in paths if (path := Path(each).resolve()).exists()}


def _snapshot(path: Path) -> DirectorySnapshot:
    return DirectorySnapshot(str(path), stat=os.lstat)  # a link may lead back to a folder that it is in


class _Changes(FileSystemEventHandler):
    """Passes on each change of a file once. ``name``: of one file of the folder alone."""

    def __init__(self, handler: FileSystemEventHandler, name: str | None) -> None:
        self.handler, self.name = handler, name
        self.reported: dict[str, object] = {}

    def dispatch(self, event: FileSystemEvent) -> None:
        """Receive an event of an observer."""
        paths = {os.fsdecode(path) for path in (event.src_path, event.dest_path) if path}
        if event.event_type not in CHANGES or event.is_directory:
            return
        if self.name is not None and self.name not in {Path(path).name for path in paths}:
            return
        # Both observers report it, and one save is several events: the same state is the same change.
        states = {path: _state(path) for path in paths}
        if any(path not in self.reported or self.reported[path] != states[path] for path in paths):
            self.reported.update(states)
            self.handler.dispatch(event)


def _state(path: str) -> object:
    with suppress(OSError):
        found = os.lstat(path)  # a path may be no longer there, or a link to nowhere
        return found.st_size, found.st_mtime_ns, found.st_ctime_ns, found.st_ino
    return None


Watch = tuple[BaseObserver, FileSystemEventHandler, ObservedWatch]
"""An observer, the handler of its events, and the folder that it watches for it."""


class Watcher:
    """Takes the place of one of watchdog's observers, and starts with the first path that it watches.

    The system notifies within milliseconds, but not for folders of other machines, nor where there is no room
    for more watches; polling finds those changes too. ``before``: how paths were earlier; what changed since
    then is reported when the path is scheduled.
    """

    def __init__(self, poll_every: float = POLL_EVERY, before: Snapshots | None = None) -> None:
        self.before = before or {}
        self.native: BaseObserver = Observer()
        self.polling = PollingObserverVFS(os.lstat, os.scandir, polling_interval=poll_every)

    def schedule(self, handler: FileSystemEventHandler, path: str, *, recursive: bool = True) -> list[Watch]:
        """Report every change of a file, or of files at any depth of a folder, to ``handler``."""
        self.start()
        there = Path(path).resolve()
        # A file that an editor replaces is another one: its folder knows of both.
        folder, name = (there, None) if there.is_dir() else (there.parent, there.name)
        changes = _Changes(handler, name)
        watches: list[Watch] = []
        for observer, what in ((self.native, folder), (self.polling, there)):
            with suppress(OSError):  # no room for more watches: polling remains
                watch = observer.schedule(changes, str(what), recursive=recursive and name is None)
                watches.append((observer, changes, watch))
        if there in self.before:
            diff = DirectorySnapshotDiff(self.before.pop(there), _snapshot(there))
            moved = [path for pair in diff.files_moved for path in pair]
            for file in {*diff.files_created, *diff.files_modified, *diff.files_deleted, *moved}:
                changes.dispatch(FileModifiedEvent(file))
        return watches

    def unschedule(self, watches: list[Watch]) -> None:
        """Report a path no longer."""
        for observer, changes, watch in watches:
            observer.remove_handler_for_watch(changes, watch)

    def start(self) -> None:
        """Begin, unless it has begun."""
        for observer in (self.native, self.polling):
            if not observer.is_alive():
                with suppress(OSError):  # the system gives no watches at all: polling remains
                    observer.start()

    def stop(self) -> None:
        """End."""
        self.native.stop()
        self.polling.stop()

    def join(self) -> None:
        """Wait for the end."""
        for observer in (self.native, self.polling):
            if observer.is_alive():
                observer.join()
