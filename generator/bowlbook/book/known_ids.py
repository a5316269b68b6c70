"""The ids of a book's entries, read off its folder: also of a book with mistakes."""

import re
from collections import defaultdict
from contextlib import suppress
from pathlib import Path

from bowlbook.book.folder import EntryFile, content_of, list_folder, list_kind
from bowlbook.book.shelf_folder import shelf_in

KIND = re.compile(rb"^kind:\s*([a-z]+)", re.M)


def known_ids(root: Path) -> dict[tuple[str, str], list[str]]:
    """The ids by kind of entry and, of products, by kind of product, each list sorted."""
    files, _ = list_folder(root)
    shelf: list[EntryFile] = []
    folder = shelf_in(root)
    if folder is not None:
        with suppress(OSError):
            list_kind(folder, "product", shelf, [])
    found: dict[tuple[str, str], set[str]] = defaultdict(set)
    for file in [*files, *shelf]:
        found[file.kind, _kind_of(file) if file.kind == "product" else ""].add(file.id)
    return {key: sorted(ids) for key, ids in sorted(found.items())}


def _kind_of(file: EntryFile) -> str:
    """The kind that a product's file says; empty where it says none."""
    content = content_of(file)
    kind = KIND.search(content) if isinstance(content, bytes) else None
    return kind[1].decode() if kind else ""
