"""What a preview need not write again: every file by all that goes into it, held against the last time.

MkDocs' own quick rebuild looks at dates, and loses labels of the navigation and most of the search index.
This one reads every page, and leaves out only what would come to the very same bytes.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any, TypeVar, overload

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure import StructureItem
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink

from bowlbook.book.kept import stamp_of
from bowlbook.site.entry_page import EntryPage
from bowlbook.site.manifest import files_under
from bowlbook.site.packed import PackedDocument, packed_document

T = TypeVar("T")
Key = tuple[Any, ...]
NOT_TOLD = ("theme", "plugins")
"""Options of a configuration that are objects, and are told by what they hold."""
TEMPLATE = re.compile(r"\.[a-z]*ml$")
LATE = ("page_context", "post_page", "env")
"""What another plugin may do to a page after it can be seen here."""


class OwnFile(File):
    """A file that is told, rather than guesses, whether it is to be written again."""

    modified = True

    def is_modified(self) -> bool:
        """Whether to write it."""
        return self.modified


class DocumentFile(OwnFile):
    """A document of ours, which is unpacked when it is written."""

    document: PackedDocument

    @property
    def content_bytes(self) -> bytes:
        """The file's bytes."""
        return self.document.content

    @content_bytes.setter
    def content_bytes(self, value: bytes) -> None:
        """Another content, by another plugin."""
        self.document = packed_document(self.document.path, value)

    def copy_file(self, dirty: bool = False) -> None:
        """Write it, if it is to be written."""
        if self.modified or not dirty:
            path = Path(self.abs_dest_path)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(self.content_bytes)


def document_file(document: PackedDocument, config: MkDocsConfig) -> DocumentFile:
    """The file of a document."""
    file = DocumentFile.generated(config, document.path, content=b"")
    assert isinstance(file, DocumentFile)
    file.document = document
    return file


class Noting(Sequence[T]):
    """A list that remembers whether a template looked into it."""

    def __init__(self, items: Sequence[T]) -> None:
        self.items, self.asked = items, False

    @overload
    def __getitem__(self, place: int) -> T: ...
    @overload
    def __getitem__(self, place: slice) -> Sequence[T]: ...
    def __getitem__(self, place: int | slice) -> T | Sequence[T]:
        self.asked = True
        return self.items[place]

    def __len__(self) -> int:
        self.asked = True
        return len(self.items)


class Rebuild:
    """The files of the last build in this process, and what each was made from."""

    def __init__(self) -> None:
        self.written: dict[str, Key] = {}
        self.before: dict[str, Key] = {}
        self.now: dict[str, Key] = {}
        self.names: set[str] = set()
        """Whatever may stand in the site, also from a build that did not end."""
        self.listed: Noting[File] | None = None

    def begin(self, files: Files) -> Files:
        """A build begins: its files, those that MkDocs found each as one that is told whether it changed.

        A build that does not end is followed by a whole one.
        """
        self.before, self.written, self.now = self.written, {}, {}
        return Files(_told(each) if _is_found(each) else each for each in files)

    def choose(self, files: Files, nav: Navigation, config: MkDocsConfig, own: object) -> None:
        """Say of each file whether it is to be written again. All pages have been read.

        ``own``: our plugin. Another that changes a page later than this leaves nothing to be told.
        """
        pages = files.documentation_pages()
        listed = [_named(file.page) for file in pages if file.page] if self._lists_all() else None
        common = (_configuration(config, own), _theme(config), list(_labels(nav.items, 0)), listed)
        same = self.before.get("") == common
        self.now[""] = common
        for file in files:
            if isinstance(file, OwnFile) and file.inclusion.value >= InclusionLevel.DRAFT.value:
                key = self.now[file.dest_uri] = _key(file)
                page = file.is_documentation_page()
                self.names.add(file.dest_uri)
                file.modified = self.before.get(file.dest_uri) != key or (page and not same)

    def note(self, name: str) -> None:
        """A file of the site that is written beside MkDocs' own."""
        self.now[name] = ()
        self.names.add(name)

    def noting(self, pages: Sequence[File]) -> Sequence[File]:
        """The list of all pages for a template: one that looks into it makes each page depend on it."""
        if self._lists_all():
            return pages
        if self.listed is None or self.listed.items is not pages:
            self.listed = Noting(pages)
        return self.listed

    def _lists_all(self) -> bool:
        return self.listed is not None and self.listed.asked

    def end(self, site: Path) -> None:
        """All is written: take away what builds before wrote and this one does not have."""
        for name in self.names - self.now.keys():
            path = site / name
            with suppress(OSError):
                path.unlink()
                while path.parent != site and not any(path.parent.iterdir()):
                    path = path.parent
                    path.rmdir()
        self.written, self.names = self.now, set(self.now)


def _is_found(file: File) -> bool:
    return type(file) is File and file.generated_by is None and file.src_dir is not None


def _told(file: File) -> File:
    assert file.src_dir is not None
    made = OwnFile(
        file.src_uri, file.src_dir, file.dest_dir, file.use_directory_urls, inclusion=file.inclusion
    )
    made.dest_uri = file.dest_uri
    return made


def _key(file: File) -> Key:
    """All that a file is made from, beside what is common to all pages."""
    page = file.page
    if isinstance(page, EntryPage):
        return (page.finished, page.url, page.canonical_url, page.update_date)
    if page is not None:
        toc = tuple(_entries(page.toc))
        meta = repr(sorted(map(repr, page.meta.items())))
        told = (page.title, meta, page.url, page.canonical_url, page.edit_url, page.update_date)
        return (page.content, toc, *told)
    if isinstance(file, DocumentFile):
        return (file.document.packed,)
    if file.abs_src_path is None:
        return (file.content_bytes,)
    return (file.abs_src_path, *stamp_of(Path(file.abs_src_path)))


def _entries(toc: Iterable[AnchorLink]) -> Iterator[tuple[str, str, int]]:
    for each in toc:
        yield each.title, each.url, each.level
        yield from _entries(each.children)


def _named(page: Page) -> tuple[str, str]:
    return page.url, str(page.title)


def _labels(items: Iterable[StructureItem], depth: int) -> Iterator[tuple[int, str, str]]:
    """The navigation as its readers see it."""
    for each in items:
        yield depth, str(each.title), str(getattr(each, "url", ""))
        yield from _labels(getattr(each, "children", None) or (), depth + 1)


def _configuration(config: MkDocsConfig, own: object) -> object:
    """Every option, as a text. What cannot be told is never the same as before, and all is written again."""
    others = [plugin for plugin in config.plugins.values() if plugin is not own]
    if config.hooks or any(hasattr(plugin, f"on_{event}") for plugin in others for event in LATE):
        return object()
    options = sorted((key, repr(value)) for key, value in config.items() if key not in NOT_TOLD)
    plugins = [(name, sorted(plugin.config.items())) for name, plugin in config.plugins.items()]
    return repr((options, plugins, sorted((key, repr(config.theme[key])) for key in config.theme)))


def _theme(config: MkDocsConfig) -> list[tuple[Any, ...]]:
    """Every template of the theme, and every file of the house's own folder beside it, as they stand.

    A house's template may take in any file of its folder; what else came with the theme changes with it. An
    editor's lock may be a link that leads nowhere, or gone by now.
    """
    own = config.theme.custom_dir
    return [
        (path, *_stamp(Path(folder, path)))
        for folder in config.theme.dirs
        for path in files_under(Path(folder))
        if folder == own or TEMPLATE.search(path)
    ]


def _stamp(file: Path) -> tuple[int, ...]:
    with suppress(OSError):
        return stamp_of(file)
    return ()
