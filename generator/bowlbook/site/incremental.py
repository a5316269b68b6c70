"""Which files of a site have to be written again: those that are made from something else than last time.

MkDocs' own quick rebuild compares dates, and loses labels of the navigation and most of the search index.
This one reads every page, computes a digest of everything each file is made from, and leaves out only what
would get the very same bytes. The preview leaves such a file where it is; a build links it into the new site.
"""

import os
import re
import secrets
import shutil
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from types import FunctionType
from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure import StructureItem
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink

from bowlbook.cache.digest import digest_of, stamp_of
from bowlbook.site.entry_page import EntryPage
from bowlbook.site.manifest import MANIFEST, files_under
from bowlbook.site.own_file import MadeFile, OwnFile, is_found, with_flag
from bowlbook.site.record import Record, SiteFile, Target, stamp_at
from bowlbook.site.theme_files import ICONS

NOT_COMPARED = ("theme", "plugins", "hooks", "site_dir")
"""Options of a configuration that are objects, compared by what they hold, and one that enters no page."""
ADDRESS = re.compile(r" at 0x[0-9a-f]+>", re.I)
"""How Python writes an object that has no text of its own."""
TEMPLATE = re.compile(r"\.[a-z]*ml$")
LATE = ("page_context", "post_page", "env", "post_build")
"""Events in which another plugin may change a page or a file after its key was computed."""
BUILD_DATE = b"build_date_utc"
"""What a template calls the time of the build."""


def is_changed_by_others(config: MkDocsConfig, own: object) -> bool:
    """Whether a hook, or a plugin beside ``own``, may change a file in a way that no key covers."""
    others = [plugin for plugin in config.plugins.values() if plugin is not own]
    return bool(config.hooks) or any(hasattr(plugin, f"on_{event}") for plugin in others for event in LATE)


class RecordingList(Sequence[Any]):
    """A list that records whether a template looked into it."""

    def __init__(self, items: Sequence[Any]) -> None:
        self.items, self.was_read = items, False

    def __getitem__(self, place: Any) -> Any:
        self.was_read = True
        return self.items[place]

    def __len__(self) -> int:
        self.was_read = True
        return len(self.items)


class Incremental:
    """One site over several builds: the files of the last one, and which of them the next one keeps.

    ``last`` is what is known of the site at ``earlier``. Without ``earlier`` builds write in place, as in the
    preview.
    """

    def __init__(self, last: Record | None = None, earlier: Path | None = None) -> None:
        self.last, self.earlier = last or Record(), earlier
        self.beneath = ""
        """The folder of the site that the book is beneath."""
        self.before = Record()
        """The last record while a build runs: one that fails is followed by a whole one."""
        self.keys: dict[str, bytes] = {}
        self.kept: set[str] = set()
        """Files of this build that are those of the last one."""
        self._copied: set[str] = set()
        """Those of them that could not be linked."""
        self.common = b""
        self.packs: dict[bytes, str] = {}
        self._site = Path()
        self._names: set[str] = set()
        """Whatever may be in a site that is written in place, also from a build that failed."""
        self._listed: RecordingList | None = None

    def begin(self, files: Files, site: Path) -> Files:
        """Begin a build into ``site``: returns its files, those that MkDocs found with a modified flag."""
        self.before, self.last = self.last, Record()
        self._site, self.keys, self.kept, self._copied = site, {}, set(), set()
        return Files(with_flag(each) if is_found(each) else each for each in files)

    def choose(self, files: Files, nav: Navigation, config: MkDocsConfig, own: object) -> int:
        """Set the modified flag of each file, and keep those without; returns how many pages are modified.

        All pages have been read by now. ``own`` is the plugin of this program.
        """
        pages = files.documentation_pages()
        self.common = _digest_of(
            _configuration(config, own),
            _theme(config),
            list(_labels(nav.items, 0)),
            [(file.page.url, str(file.page.title)) for file in pages if file.page] if self.lists_pages else 0,
        )
        is_same_frame = self.before.common == self.common
        count = 0
        for file in files:
            if isinstance(file, OwnFile) and file.inclusion.value >= InclusionLevel.DRAFT.value:
                is_page = file.is_documentation_page()
                key = self.keys[file.dest_uri] = _key(file)
                known = self.before.files.get(file.dest_uri)
                is_same = known is not None and known.key == key and (is_same_frame or not is_page)
                file.modified = not (is_same and self.keep(file.dest_uri))
                count += file.modified and is_page
        self._names |= self.keys.keys()
        return count

    def keep(self, name: str) -> bool:
        """Take a file of the last build; False where it is no longer as it was published."""
        if self.earlier is None:
            self.kept.add(name)
            return True
        source, target = f"{self.earlier}/{name}", f"{self._site}/{name}"
        with suppress(OSError):
            is_linked = _link(source, target)
            # Compared afterwards: another build may have put its own site in that place a moment ago.
            if stamp_at(os.lstat(target if is_linked else source)) == self.before.files[name].stamp:
                self.kept.add(name)
                if not is_linked:
                    self._copied.add(name)
                return True
        with suppress(OSError):
            os.unlink(target)  # noqa: PTH108
        return False

    def add(self, name: str) -> None:
        """Note a file of the site that is written beside MkDocs' own."""
        self.keys[name] = b""
        self._names.add(name)

    def recording(self, pages: Sequence[File]) -> Sequence[File]:
        """The list of all pages for a template: one that looks into it makes each page depend on it."""
        if self.lists_pages:
            return pages
        if self._listed is None or self._listed.items is not pages:
            self._listed = RecordingList(pages)
        return self._listed

    @property
    def lists_pages(self) -> bool:
        """Whether a template looks into the list of all pages."""
        return self.before.lists_pages or (self._listed is not None and self._listed.was_read)

    def end_in_place(self, site: Path) -> None:
        """All is written: remove what earlier builds wrote and this one does not have."""
        for name in self._names - self.keys.keys():
            path = site / name
            with suppress(OSError):
                path.unlink()
                while path.parent != site and not any(path.parent.iterdir()):
                    path = path.parent
                    path.rmdir()
        self._names = set(self.keys)
        files = {name: SiteFile(key, (0, 0, 0)) for name, key in self.keys.items()}
        self.last = Record(files, self.common, self.lists_pages)

    def keep_same(self, site: Path) -> None:
        """Take those files too that every build writes, where their bytes are those of the last build."""
        if self.earlier is None:
            return
        for name, known in self.before.files.items():
            if known.key or name == MANIFEST or not (path := site / name).is_file():
                continue
            content = path.read_bytes()
            if len(content) != known.stamp[0]:
                continue
            path.unlink()
            if not self.keep(name) or path.read_bytes() != content:
                self.kept.discard(name)
                path.unlink(missing_ok=True)
                path.write_bytes(content)

    def record(self, site: Path, names: Iterable[str], targets: frozenset[Target]) -> Record:
        """What is known of the finished site, all of whose files are ``names``, for the next build.

        Files that were taken keep their old stamps: one that somebody edits in between is then found out.
        """
        linked = self.kept - self._copied
        files = {
            name: self.before.files[name]
            if name in linked
            else SiteFile(self.keys.get(name, b""), stamp_at(os.lstat(f"{site}/{name}")))
            for name in names
        }
        return Record(files, self.common, self.lists_pages, self.packs, targets)


def _link(source: str, target: str) -> bool:
    """Link a file, or copy it where the file system has no hard links. Returns whether it was linked."""
    try:
        os.link(source, target, follow_symlinks=False)
    except FileNotFoundError:
        folder = target.rpartition("/")[0]
        if os.path.isdir(folder):  # noqa: PTH112  # a Path for each of thousands takes longer
            raise
        os.makedirs(folder)  # noqa: PTH103
        return _link(source, target)
    except OSError:
        shutil.copy2(source, target, follow_symlinks=False)
        return False
    return True


def _key(file: File) -> bytes:
    """The digest of everything a file is made from, beside what is common to all pages."""
    page = file.page
    if isinstance(page, EntryPage):
        return _digest_of(page.head.digest, page.replaced, *_shown_of(page))
    if page is not None:
        return _digest_of(page.content, list(_entries(page.toc)), page.edit_url, *_shown_of(page))
    if isinstance(file, MadeFile):
        return file.key
    if file.abs_src_path is None:
        return digest_of(file.content_bytes)
    return _digest_of(file.abs_src_path, stamp_of(Path(file.abs_src_path)))


def _shown_of(page: Page) -> tuple[Any, ...]:
    """What a template shows of any page beside its text."""
    meta = sorted(map(repr, page.meta.items()))
    return page.title, meta, page.url, page.canonical_url, page.update_date


def _digest_of(*values: object) -> bytes:
    """The digest of values, by how they are written; of any that has no such form, one that never recurs."""
    text = repr(values)
    return secrets.token_bytes(32) if ADDRESS.search(text) else digest_of(text)


def _entries(toc: Iterable[AnchorLink]) -> Iterator[tuple[str, str, int]]:
    for each in toc:
        yield each.title, each.url, each.level
        yield from _entries(each.children)


def _labels(items: Iterable[StructureItem], depth: int) -> Iterator[tuple[int, str, str]]:
    """The navigation as its readers see it."""
    for each in items:
        yield depth, str(each.title), str(getattr(each, "url", ""))
        yield from _labels(getattr(each, "children", None) or (), depth + 1)


def _configuration(config: MkDocsConfig, own: object) -> object:
    """Every option that enters a page. Options that cannot be compared force a full rebuild."""
    if is_changed_by_others(config, own):
        return object()
    options = sorted((key, _plain(value)) for key, value in config.items() if key not in NOT_COMPARED)
    plugins = [(name, sorted(plugin.config.items())) for name, plugin in config.plugins.items()]
    return options, plugins, sorted((key, repr(config.theme[key])) for key in config.theme)


def _plain(value: object) -> object:
    """A value of an option, functions in it by their names: as they are written, they have an address."""
    if isinstance(value, dict):
        return [(key, _plain(each)) for key, each in value.items()]
    if isinstance(value, list | tuple):
        return [_plain(each) for each in value]
    if isinstance(value, FunctionType):
        return f"{value.__module__}.{value.__qualname__}"
    return value


def _theme(config: MkDocsConfig) -> list[tuple[Any, ...]]:
    """Every template of the theme, and every file of the house's own folder beside it, as they stand.

    A house's template may take in any file of its folder; what else came with the theme changes with it. An
    editor's lock may be a link that leads nowhere, or gone by now. A template that shows the time of the
    build is another one each time.
    """
    own = config.theme.custom_dir
    found: list[tuple[Any, ...]] = []
    for folder in config.theme.dirs:
        for path in files_under(Path(folder), "" if folder == own else ICONS):
            if folder == own or TEMPLATE.search(path):
                found.append((path, *_stamp(Path(folder, path))))
            if folder == own and TEMPLATE.search(path) and _shows_build_date(Path(folder, path)):
                found.append((path, secrets.token_hex()))
    return found


def _shows_build_date(template: Path) -> bool:
    with suppress(OSError):
        return BUILD_DATE in template.read_bytes()
    return False


def _stamp(file: Path) -> tuple[int, ...]:
    with suppress(OSError):
        return stamp_of(file)
    return ()
