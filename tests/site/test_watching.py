"""Changed files are reported once each: by the system where it notifies, by polling where it does not."""

import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from watchdog.events import FileClosedNoWriteEvent, FileModifiedEvent, FileSystemEvent, FileSystemEventHandler

from bowlbook.site.watching import Watcher, _Changes, snapshots_of
from systems import needs_links

LONG = 20.0
"""Seconds after which something that should be reported is given up."""


class Reports(FileSystemEventHandler):
    """Notes which files are reported."""

    def __init__(self) -> None:
        self.names: list[str] = []
        self.now = threading.Event()

    def dispatch(self, event: FileSystemEvent) -> None:
        self.names.append(Path(str(event.dest_path or event.src_path)).name)
        self.now.set()

    def wait(self) -> str:
        """The first file that is reported from now on."""
        assert self.now.wait(LONG)
        return self.names[0]

    def wait_for(self, name: str) -> None:
        """Until this file is reported."""
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


def without_room(watcher: Watcher) -> Watcher:
    """As in a folder of another machine, or where there is no room for more watches."""

    def full(*args: object, **more: object) -> Any:
        raise OSError("no room for more watches")

    watcher.native.schedule = full  # type: ignore[method-assign]
    return watcher


def refused(watcher: Watcher) -> Watcher:
    """As where the system gives no watches at all, and refuses only when they begin."""

    def full() -> None:
        raise OSError("no room for watches")

    watcher.native.start = full  # type: ignore[method-assign]
    return watcher


@pytest.fixture(params=["notified", "polled", "refused"])
def watcher(request: pytest.FixtureRequest) -> Iterator[Watcher]:
    """One that the system notifies of everything and that never polls, and two that only poll."""
    if request.param == "notified":
        made = Watcher(3600)
    else:
        made = (without_room if request.param == "polled" else refused)(Watcher(0.01))
    yield made
    made.stop()


@pytest.mark.parametrize("change", [_write, _add, _delete, _put_in_place])
def test_a_file_at_any_depth_of_a_folder(
    watcher: Watcher, folder: Path, change: Callable[[Path], None]
) -> None:
    reports = Reports()
    watcher.schedule(reports, str(folder.parent), recursive=True)
    change(folder)
    assert reports.wait() in ("soft.yml", "new.yml")


@pytest.mark.parametrize("change", [_write, _put_in_place])
def test_one_file_and_not_its_neighbours(
    watcher: Watcher, folder: Path, change: Callable[[Path], None]
) -> None:
    """Also when it is another file of the same name, more than once."""
    reports = Reports()
    watcher.schedule(reports, str(folder / "soft.yml"), recursive=True)
    for _ in range(2):
        _add(folder)
        change(folder)
        assert reports.wait() == "soft.yml"
        reports.forget()


def test_nothing_is_reported_of_what_is_read_or_no_longer_watched(watcher: Watcher, folder: Path) -> None:
    other, reports = Reports(), Reports()
    page = folder.parent / "products" / "cream.yml"
    page.parent.mkdir()
    page.write_text("Cream.", encoding="utf-8")
    watches = watcher.schedule(other, str(folder), recursive=True)
    watcher.schedule(reports, str(page.parent), recursive=True)
    watcher.unschedule(watches)
    _write(folder)
    for _ in range(20):
        page.read_text(encoding="utf-8")
    _add(page.parent)  # reported after all that went before
    reports.wait_for("new.yml")
    assert other.names == []
    assert set(reports.names) == {"new.yml"}


def test_the_same_state_of_a_file_is_reported_once(folder: Path) -> None:
    """Both observers report it. A file that was only closed is not; a deleted one is."""
    reports = Reports()
    changes = _Changes(reports, None)
    path = folder / "soft.yml"
    for event in (FileModifiedEvent, FileModifiedEvent, FileClosedNoWriteEvent):
        changes.dispatch(event(str(path)))
    assert reports.names == ["soft.yml"]
    path.write_text("Another.", encoding="utf-8")
    changes.dispatch(FileModifiedEvent(str(path)))
    path.unlink()
    changes.dispatch(FileModifiedEvent(str(path)))
    changes.dispatch(FileModifiedEvent(str(path)))
    assert reports.names == ["soft.yml"] * 3


@needs_links
def test_a_link_back_into_a_folder(folder: Path) -> None:
    """Its files are looked at once; a link that goes is seen too."""
    (folder / "up").symlink_to(folder.parent)
    reports, watcher = Reports(), without_room(Watcher(0.01))
    watcher.schedule(reports, str(folder.parent), recursive=True)
    (folder / "up").unlink()
    assert reports.wait() == "up"
    watcher.stop()


@pytest.mark.parametrize("change", [_write, _add, _delete, _put_in_place])
def test_what_changed_since_an_earlier_look(folder: Path, change: Callable[[Path], None]) -> None:
    """As during the first build, before anything is watched."""
    for path in (folder.parent, folder / "soft.yml"):
        reports, watcher = Reports(), Watcher(3600, before=snapshots_of([str(path)]))
        change(folder)
        if path.exists():
            watcher.schedule(reports, str(path), recursive=True)
            assert reports.names or change is _add
            watcher.stop()
        (folder / "soft.yml").write_text("Soft.", encoding="utf-8")
