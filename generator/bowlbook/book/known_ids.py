"""The ids of a book's entries, read off its folder: also of a book with mistakes."""

import re
from collections import defaultdict

from bowlbook.book.folder import Folder
from bowlbook.reading.refusal import Refusal

KIND = re.compile(rb"^kind:\s*([a-z]+)", re.M)


def known_ids(folder: Folder) -> dict[tuple[str, str], list[str]]:
    """The ids by kind of entry and, of products, by kind of product, each list sorted."""
    found: dict[tuple[str, str], set[str]] = defaultdict(set)
    for file, content in folder.files:
        found[file.kind, _kind_in(content) if file.kind == "product" else ""].add(file.id)
    return {key: sorted(ids) for key, ids in sorted(found.items())}


def _kind_in(content: bytes | Refusal) -> str:
    """The kind that a product's file says; empty where it says none."""
    kind = KIND.search(content) if isinstance(content, bytes) else None
    return kind[1].decode() if kind else ""
