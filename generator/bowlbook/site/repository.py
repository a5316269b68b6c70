"""The house's repository on its host: the address at which an entry is edited, and a new blend proposed.

As MkDocs has it for pages written by hand: from ``repo_url`` with ``edit_uri`` or ``edit_uri_template``,
which lead to ``docs_dir``. Only the team's copy leads there.
"""

import os
import posixpath
import re
from html import escape
from pathlib import Path
from urllib.parse import quote, urljoin

from bowlbook.book.book import Book
from bowlbook.book.folder import FOLDER_OF, FOLDERS
from bowlbook.pages.try_page import ADDRESS as TRY

UP = re.compile(r"[^/?#=&]+/\.\./")
"""A folder of an address, and the way out of it again."""
EDITS = re.compile(r"(^|/)edit/(?=[^/]+/)")
"""Where an address says that a file is edited: with ``new`` in its place a file is begun."""
NEW_FILE = "?filename={name}&value={text}"


class Repository:
    """Makes addresses of files of the book; None where the host of the repository is not known."""

    def __init__(
        self, recipes: Path, top: Path, docs: Path, address: str, edit_template: str, new_file: str
    ) -> None:
        """``top`` holds ``mkdocs.yml``. ``edit_template``: with ``{path}`` in it, from ``docs``, or empty.

        ``new_file``: as the option of that name, for hosts that edit by other addresses.
        """
        self.address, self.edit_template, self.new_file = address, edit_template, new_file
        self.inside = all(each.resolve().is_relative_to(top.resolve()) for each in (recipes, docs))
        self.from_docs = _posix_way(recipes, docs)
        # A way out of the repository would show where the book is on this machine.
        self.from_top = _posix_way(recipes, top) if self.inside else recipes.name

    def edit(self, path: str) -> str | None:
        """Where a file of the book, such as ``blends/soft-clay.yml``, is edited."""
        if not self.inside or not self.edit_template:
            return None
        way = quote(f"{self.from_docs}/{path}")
        way = self.edit_template.format(path=way, path_noext=posixpath.splitext(way)[0])
        while (shorter := UP.sub("", way, count=1)) != way:
            way = shorter
        repository = self.address
        if repository and not way.startswith(("?", "#")) and not repository.endswith("/"):
            repository += "/"
        found = urljoin(repository, way)
        return found if found.startswith(("https://", "http://")) and ".." not in found else None

    def propose(self, folder: str) -> str | None:
        """Where a file in a folder of the book is begun, with ``{name}`` and ``{text}`` to be put in."""
        if self.new_file:
            return self.new_file.replace("{folder}", quote(f"{self.from_top}/{folder}"))
        found = self.edit(f"{folder}/new")
        if found is None or not EDITS.search(found):
            return None
        return EDITS.sub(r"\1new/", found.removesuffix("/new"), count=1) + NEW_FILE

    def foot(self, book: Book, address: str) -> str:
        """What the repository adds at the end of a page's body, as HTML; nothing for most pages."""
        if address == TRY:
            blends = FOLDER_OF["blend"]
            propose = escape(self.propose(blends) or "")
            place = escape(f"{self.from_top}/{blends}")
            return f'<p id="bb-repository" data-folder="{place}" data-propose="{propose}" hidden></p>'
        folder, _, entry_id = address.rstrip("/").partition("/")
        kind = FOLDERS.get(folder)
        if kind is None or entry_id not in book.of_kind(kind) or _is_shared(book, kind, entry_id):
            return ""
        found = self.edit(f"{folder}/{entry_id}.yml")
        return f'<p class="bb-edit"><a href="{escape(found)}">Edit this entry</a></p>' if found else ""


def _is_shared(book: Book, kind: str, entry_id: str) -> bool:
    """Whether an entry's file is in the folder of several books, which may be another repository's."""
    return kind == "product" and entry_id in book.shared and book.products[entry_id] is book.shared[entry_id]


def _posix_way(to: Path, start: Path) -> str:
    """The way from one folder to another, with forward slashes."""
    return Path(os.path.relpath(to.resolve(), start.resolve())).as_posix()
