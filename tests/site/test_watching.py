"""What changes is told, once: by the system where it tells, by looking where it does not."""

import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from watchdog.events import FileClosedNoWriteEvent, FileModifiedEvent, FileSystemEvent, FileSystemEventHandler

from bowlbook.site.watching import Watcher, _Told, stamps_of
from systems import needs_links

LONG = 20.0
"""Seconds after which something that should be told is given up."""


class Told(FileSystemEventHandler):
    """Notes which files it is told of."""

    def __init__(self) -> None:
        self.names: list[str] = []
        self.now = threading.Event()

    def dispatch(self, event: FileSystemEvent) -> None:
        if not event.is_directory:
            self.names.append(Path(str(event.dest_path or event.src_path)).name)
            self.now.set()

    def wait(self) -> str:
        """The first file that it is told of from now on."""
        assert self.now.wait(LONG)
        return self.names[0]

    def wait_for(self, name: str) -> None:
        """Until it is told of this file."""
        end = time.monotonic() + LONG
        while name not in self.names:
            assert time.monotonic() < end
            time.sleep(0.01)

    def forget(self) -> None:
        self.names.clear()
        self.now.clear()


def _write(folder: Path) -> None:
    (folder / "soft.yml").write_text("Other.", encoding="utf-8")


def _add(folder: Path) -> None:
    (folder / "new.yml").write_text("New.", encoding="utf-8")


def _delete(folder: Path) -> None:
    (folder / "soft.yml").unlink()


def _put_in_place(folder: Path) -> None:
    """As many editors save: another file, given the name of the first."""
    draft = folder.parent.parent / "draft"
    draft.write_text("Drafted.", encoding="utf-8")
    draft.replace(folder / "soft.yml")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "recipes" / "blends").mkdir(parents=True)
    (tmp_path / "recipes" / "blends" / "soft.yml").write_text("Soft.", encoding="utf-8")
    return tmp_path / "recipes" / "blends"


def silent(watcher: Watcher) -> Watcher:
    """As in a folder that the system does not tell of."""

    def full(*args: object, **more: object) -> Any:
        raise OSError("no room for more watches")

    watcher.native.schedule = full  # type: ignore[method-assign]
    return watcher


def refused(watcher: Watcher) -> Watcher:
    """As where the system gives no room for watches at all, and says so only when they begin."""

    def full() -> None:
        raise OSError("no room for watches")

    watcher.native.start = full  # type: ignore[method-assign]
    return watcher


@pytest.fixture(params=["told", "looked for", "refused"])
def watcher(request: pytest.FixtureRequest) -> Iterator[Watcher]:
    """One that the system tells of everything and that never looks itself, and two that only look."""
    if request.param == "told":
        made = Watcher(3600)
    else:
        made = (silent if request.param == "looked for" else refused)(Watcher(0.01))
    yield made
    made.stop()
    made.join()


@pytest.mark.parametrize("change", [_write, _add, _delete, _put_in_place])
def test_a_file_at_any_depth_of_a_folder(
    watcher: Watcher, folder: Path, change: Callable[[Path], None]
) -> None:
    told = Told()
    watcher.schedule(told, str(folder.parent), recursive=True)
    watcher.start()
    change(folder)
    assert told.wait() in ("soft.yml", "new.yml")


@pytest.mark.parametrize("change", [_write, _put_in_place])
def test_one_file_and_not_its_neighbours(
    watcher: Watcher, folder: Path, change: Callable[[Path], None]
) -> None:
    """Also when it is another file of the same name, more than once."""
    told = Told()
    watcher.schedule(told, str(folder / "soft.yml"), recursive=True)
    watcher.start()
    for _ in range(2):
        _add(folder)
        change(folder)
        assert told.wait() == "soft.yml"
        told.forget()


def test_nothing_is_told_of_what_is_read_or_no_longer_watched(watcher: Watcher, folder: Path) -> None:
    other, told, last = Told(), Told(), Told()
    page = folder.parent / "products" / "cream.yml"
    page.parent.mkdir()
    page.write_text("Cream.", encoding="utf-8")
    watch = watcher.schedule(other, str(folder), recursive=True)
    watcher.start()
    watcher.schedule(told, str(page.parent), recursive=True)
    watcher.unschedule(watch)
    _write(folder)
    _add(page.parent)
    told.wait()
    watcher.schedule(last, str(folder.parent), recursive=True)  # may hear the end of what went before
    for _ in range(20):
        page.read_text(encoding="utf-8")
    (folder / "last.yml").write_text("Last.", encoding="utf-8")  # told after all that went before
    last.wait_for("last.yml")
    assert other.names == []
    assert "cream.yml" not in {*told.names, *last.names}


def test_what_the_system_told_is_not_told_again(folder: Path) -> None:
    """And what it did not tell of beside that is. Nobody waits here: the system's word is given by hand."""
    watcher, told = silent(Watcher(3600)), Told()
    watch = watcher.schedule(told, str(folder), recursive=True)
    _write(folder)
    _Told(watch, None).dispatch(FileModifiedEvent(str(folder / "soft.yml")))
    assert told.names == ["soft.yml"]
    _add(folder)
    watcher._look(watch)
    assert told.names == ["soft.yml", "new.yml"]
    watcher._look(watch)
    _Told(watch, None).dispatch(FileClosedNoWriteEvent(str(folder / "soft.yml")))
    assert told.names == ["soft.yml", "new.yml"]
    _delete(folder)
    watcher._look(watch)
    assert told.names == ["soft.yml", "new.yml", "soft.yml"]


@needs_links
def test_links_within_what_is_watched(folder: Path) -> None:
    """A file is looked at once, where it really is; a link that comes or goes is seen too."""
    book, told = folder.parent, Told()
    (book / "again").symlink_to(folder)
    (folder / "up").symlink_to(book)
    assert sorted(Path(each).name for each in stamps_of(book)) == ["again", "soft.yml", "up"]
    watcher = silent(Watcher(3600))
    watch = watcher.schedule(told, str(book), recursive=True)
    (book / "again" / "soft.yml").write_text("Another.", encoding="utf-8")
    watcher._look(watch)
    assert "soft.yml" in told.names
    told.forget()
    (book / "again").unlink()
    watcher._look(watch)
    assert "again" in told.names


def test_what_changed_since_an_earlier_look(folder: Path) -> None:
    """As during the first build, before anything is watched."""
    told, seen = Told(), Watcher(0.01, before={folder: stamps_of(folder)})
    _write(folder)
    seen.schedule(told, str(folder), recursive=True)
    seen.start()
    assert told.wait() == "soft.yml"
    seen.stop()
    seen.join()
