"""The folders whose files MkDocs publishes as they are: no book may be in them, and no link may lead out.

Hard links and files that a hook or another plugin writes itself look like any other.
"""

import os
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files

from bowlbook.book.folder import FOLDERS


class PublishedFolder(NamedTuple):
    """A folder that is published as it is, and what ``mkdocs.yml`` calls it."""

    path: Path
    option: str


def published_folders(config: MkDocsConfig) -> list[PublishedFolder]:
    """The folder of pages written by hand, and the house's own folder beside the theme."""
    own = config.theme.custom_dir
    return [
        PublishedFolder(Path(config.docs_dir), "docs_dir"),
        *([PublishedFolder(Path(own), "custom_dir")] if own else []),
    ]


def danger_in(config: MkDocsConfig, books: Iterable[Path]) -> str | None:
    """A sentence on what would be published raw, or lead out of these folders; None where nothing would.

    ``books``: the folders of recipes and of shared products, whether they exist or not.
    """
    folders = published_folders(config)
    top = _top(config)
    for book in books:
        for folder in [*folders, *(PublishedFolder(Path(each), "theme") for each in config.theme.dirs)]:
            if is_under(book, folder.path):
                return _raw(book, folder, top)
        for folder in folders:
            if is_under(folder.path, book):
                inside, outside = _shown(folder.path, top), _shown(book, top)
                return f"{inside} ({folder.option}) is in the book {outside}. Put the two side by side."
    for folder in folders:
        if _is_named_under(folder.path, top) and not is_under(folder.path, top):
            return _leads_out(folder.path, PublishedFolder(top, "the folder of mkdocs.yml"), top)
        for danger in _dangers_under(folder, [each.path for each in folders], top):
            return danger
    return None


def stray_in(files: Files, config: MkDocsConfig, books: Iterable[Path]) -> str | None:
    """A sentence on a file, of whatever plugin, that is a book's, or not where it seems to be; None else."""
    folders, theirs = published_folders(config), list(books)
    top = _top(config)
    of_folder = {str(each.path): each for each in folders}
    inside = cache(is_under)  # most files are in few folders
    for file in files:
        if file.abs_src_path is None:
            continue
        real = Path(os.path.realpath(file.abs_src_path)).parent
        if any(inside(real, each) for each in theirs):
            return f"{_shown(Path(file.abs_src_path), top)} would be published as it is, and is a book's."
        folder = of_folder.get(str(file.src_dir))
        if folder is not None and not any(inside(real, each.path) for each in folders):
            return _leads_out(Path(file.abs_src_path), folder, top)
    return None


def _top(config: MkDocsConfig) -> Path:
    return Path(config.config_file_path).parent


def is_under(path: Path, folder: Path) -> bool:
    """Whether a path really is a folder, or in it at any depth; by what they are, whatever their names."""
    try:
        there = folder.stat()
    except OSError:
        return False
    real = Path(os.path.realpath(path))
    return any(_is(each, there) for each in (real, *real.parents))


def _is(path: Path, there: os.stat_result) -> bool:
    try:
        return os.path.samestat(path.stat(), there)
    except OSError:
        return False


def _dangers_under(folder: PublishedFolder, allowed: list[Path], top: Path) -> Iterator[str]:
    """Of each link that leads out or nowhere, and of each folder that looks like a book, a sentence."""
    waiting = [folder.path]
    while waiting:
        at = waiting.pop()
        try:
            with os.scandir(at) as items:
                entries = sorted(items, key=lambda entry: entry.name)
        except OSError:  # MkDocs says what it cannot read
            continue
        names = {entry.name for entry in entries}
        if "house.yml" in names and names & FOLDERS.keys():
            yield _raw(at, folder, top)
        for entry in entries:
            path = Path(entry.path)
            if entry.is_symlink() or getattr(entry, "is_junction", bool)():  # from Python 3.12 on
                if not any(is_under(path, each) for each in allowed):
                    yield _leads_out(path, folder, top)
                elif path.is_dir() and is_under(at, path):
                    yield f"{_shown(path, top)} is a link back to a folder that it is in. Take it away."
                elif not path.exists() and not entry.name.startswith("."):  # an editor's lock
                    yield f"{_shown(path, top)} is a link that leads nowhere. Take it away."
            elif entry.is_dir(follow_symlinks=False):
                waiting.append(path)


def _raw(book: Path, folder: PublishedFolder, top: Path) -> str:
    where = f"{_shown(folder.path, top)} ({folder.option})"
    return (
        f"{_shown(book, top)} belongs to a book and is in {where}: its files would be published as they are. "
        "Move it out of there."
    )


def _leads_out(link: Path, folder: PublishedFolder, top: Path) -> str:
    where = f"{_shown(folder.path, top)} ({folder.option})"
    return (
        f"{_shown(link, top)} is a link that leads out of {where}: whatever is there would be published. "
        "Put the files themselves in its place, or take it away."
    )


def _is_named_under(path: Path, top: Path) -> bool:
    return Path(os.path.abspath(path)).is_relative_to(os.path.abspath(top))  # noqa: PTH100  # as it is written


def _shown(path: Path, top: Path) -> str:
    """A path as the reader of ``mkdocs.yml`` would write it."""
    written = os.path.abspath(path)  # noqa: PTH100  # a link is named by its own name
    return Path(os.path.relpath(written, top) if _is_named_under(path, top) else written).as_posix()
