"""The MkDocs plugin: judges the book, hands its pages over as generated files, and watches the recipes."""

import logging
import os
import re
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from html import escape, unescape
from pathlib import Path
from typing import Any, ClassVar, Literal, cast
from urllib.parse import quote

from jinja2 import ChoiceLoader, FileSystemLoader, PrefixLoader
from mkdocs.config.config_options import URL, SubConfig, Type
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from bowlbook.book.audience import AUDIENCES, copy_for
from bowlbook.book.book import Book
from bowlbook.book.kept import kept_file
from bowlbook.book.read_book import Progress
from bowlbook.book.revision import NoRevision, NothingThere, book_at, last_release
from bowlbook.book.shelf_folder import shelf_in
from bowlbook.checks.day import today
from bowlbook.checks.judge import Judgement, judge
from bowlbook.figures.difference import differences
from bowlbook.pages.all_pages import PICK, makers_of
from bowlbook.pages.app_manifest import app_manifest
from bowlbook.pages.asset import asset_files, asset_folder, compact, data_name
from bowlbook.pages.page import SearchEntry
from bowlbook.pages.policy import POLICY
from bowlbook.pages.release_page import Since
from bowlbook.pages.render import Compiled
from bowlbook.pages.search_index import Found, search_index
from bowlbook.reading.amount import counted
from bowlbook.reading.finding import finding_text
from bowlbook.site.docs_folder import files_by_hand
from bowlbook.site.entry_page import EntryPage
from bowlbook.site.kept_pages import KeptPages
from bowlbook.site.manifest import other_copy, write_manifest
from bowlbook.site.offline import is_kept, write_copy
from bowlbook.site.offline_limit import OfflineConfig, left_out, unused
from bowlbook.site.packed import PackedDocument
from bowlbook.site.place import fault_of_place
from bowlbook.site.preview import guarded
from bowlbook.site.published_folders import danger_in, stray_in
from bowlbook.site.rebuild import OwnFile, Rebuild, document_file
from bowlbook.site.settings import OneOf, StrictConfig, misplaced_option
from bowlbook.site.splice import Spliced
from bowlbook.site.watching import Stamps, Watcher, stamps_of

log = logging.getLogger("mkdocs.plugins.bowlbook")

HERE = Path(__file__).parent
WORKER = HERE / "worker.js"
OVERRIDES = HERE / "overrides"
SCRIPT = "site.js"
NO_SCRIPTS = (
    "Templates in {} keep the book's scripts off its pages: no search, no other sizes, no timers. "
    "Let main.html extend base.html, and its block scripts call super()."
)
DATA = "data"
COSTS = "reports/costs/index.md"
QUIET_FOR = 0.05
"""Seconds without another change after which a preview is built: an editor may write several times."""
THEME_SCRIPTS = "assets/javascripts/"
REPLACE = "BOWLBOOK_REPLACE"
"""The environment's word that plain MkDocs may build one audience's copy over the other's: ``1``."""


class BowlbookConfig(StrictConfig):  # type: ignore[no-untyped-call]  # MkDocs leaves it untyped
    """What ``mkdocs.yml`` may say under ``bowlbook``."""

    recipes = Type(str, default="recipes")
    audience = OneOf(AUDIENCES, default="team")
    """Whose copy is built: the team's, or the public's without prices, suppliers, staff and private notes."""
    public_url = URL(default="", is_dir=True)
    """Where the public's copy is served; ``site_url`` is where the copy is that ``audience`` names."""
    release = Type(str, default="auto")
    """What the page of changes compares with: a git revision, auto for the newest tag, or none."""
    splice = Type(bool, default=True)
    """Whether the theme is rendered once for each shape of page, or, as a reference, for every page."""
    offline = SubConfig(OfflineConfig)
    """Limits of what files written by hand take in the copy on the phone."""


@dataclass(frozen=True, slots=True)
class Given:
    """What a command of our own hands the plugin, however often MkDocs makes it anew.

    Another folder of recipes or audience than the configuration's; the book, where it was judged and its
    findings told; whom to tell how many of how many pages have been made; in which folder beneath the
    configuration's address the site will be served.
    """

    recipes: Path | None = None
    audience: str | None = None
    judgement: Judgement | None = None
    tell: Progress | None = None
    beneath: str = ""


class BowlbookPlugin(BasePlugin[BowlbookConfig]):  # type: ignore[no-untyped-call]  # as above
    """Turns a folder of recipes into pages. Stops the build, before anything is written, on an error."""

    given: ClassVar[Given] = Given()

    served: ClassVar[KeptPages | None] = None
    last: ClassVar[Rebuild] = Rebuild()
    server: ClassVar[LiveReloadServer | None] = None
    compiled: ClassVar[Compiled] = Compiled()

    book: Book | None = None
    audience: str = "team"
    serving: bool = False
    dirty: bool = False
    nav: Navigation
    kept: KeptPages
    pick: str = ""
    made: int = 0
    planned: int = 0
    before: dict[Path, Stamps] | None = None
    without: Collection[str] = ()
    scripts_looked_for: bool = False

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Remember whether this is the preview: it keeps no copies, and lets MkDocs' reloading script run."""
        self.serving, self.dirty = command == "serve", dirty

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Read and check the book, and set what the theme needs from it."""
        if self.serving:
            if self.server is None:  # what is edited during the first build is told when it has ended
                self.before = {each: stamps_of(each) for each in map(Path, self.watched(config))}
            self.watch_shelf(config)
        self.refuse(config)
        if not config.use_directory_urls:
            raise PluginError("Bowlbook needs use_directory_urls: true.")
        if not self.serving and self.given.judgement is None:  # else MkDocs builds into a temporary folder
            fault = fault_of_place(Path(config.site_dir), self.sources(config, self.folder(config)))
            if fault is not None:
                raise PluginError(fault)
        judgement = self.given.judgement or judge(self.folder(config), today())
        errors = judgement.errors(strict=bool(config.strict))
        if self.given.judgement is None:
            for finding in judgement.findings:
                if finding not in errors:
                    log.warning(finding_text(finding))
        if errors or judgement.book is None:
            text = "\n".join(map(finding_text, errors))
            raise PluginError(f"The book has {counted(len(errors), 'finding')}; nothing was built.\n{text}")
        self.without = self.check_by_hand(config)
        if not self.serving:
            config.site_url = self.address(config)
        self.book = copy_for(judgement.book, self.audience)
        if not self.book.priced and config.nav is not None:
            config.nav = _without(config.nav, COSTS)
        config.site_name = escape(self.book.house.title)
        config.extra["bowlbook_notice"] = escape(self.book.house.notice or "")
        config.theme.dirs.insert(1 if config.theme.custom_dir else 0, str(OVERRIDES))
        config.extra["bowlbook_assets"] = asset_folder()
        config.extra["bowlbook_policy"] = None if self.serving else POLICY
        config.theme["favicon"] = f"{asset_folder()}/icon.svg"
        config.extra_css.append(f"{asset_folder()}/bowlbook.css")
        return config

    def refuse(self, config: MkDocsConfig) -> None:
        """Refuse a configuration that would publish the wrong copy, or what is not to be published at all.

        Sets whose copy is built.
        """
        self.audience = self.given.audience or self.config.audience
        if sum(isinstance(plugin, BowlbookPlugin) for plugin in config.plugins.values()) > 1:
            raise PluginError("mkdocs.yml names the plugin bowlbook twice. Delete one of the two.")
        reason = misplaced_option(config, {key for key, _ in config._schema}, self.config)
        reason = reason or danger_in(config, self.books(config))
        if reason is not None:
            raise PluginError(reason)
        other = None if os.environ.get(REPLACE) == "1" else other_copy(Path(config.site_dir), self.audience)
        if other is not None:
            raise PluginError(f"{other} Build it into another folder, or set {REPLACE}=1 to replace it.")

    def check_by_hand(self, config: MkDocsConfig) -> set[str]:
        """Refuse files written by hand that cannot be published; returns those that the phone does not keep.

        Each of these is a warning; the preview, which keeps no copy, gives none.
        """
        files, faults = files_by_hand(config)
        if faults:
            text = "\n".join(faults[:20] + ["…"] * (len(faults) > 20))
            raise PluginError(f"Files that cannot be published: {len(faults)}; nothing was built.\n{text}")
        if self.serving:
            return set()
        known = {file.src_uri: file for file in files if is_kept(file.dest_uri)}
        sizes = {name: Path(config.docs_dir, name).stat().st_size for name in known}
        out = left_out(sizes, self.config.offline)
        for name, reason in out.items():
            if reason:
                log.warning(f"{name} is not in the copy on the phone: {reason}.")
        for pattern in unused(self.config.offline.leave_out, known):
            log.warning(f'offline: leave_out: "{pattern}" fits no file of docs that the phone would keep.')
        return {known[name].dest_uri for name in out}

    def address(self, config: MkDocsConfig) -> str | None:
        """Where this copy is served: canonical links and the codes on cards lead there."""
        found = config.site_url
        public = self.audience == "public"
        if public and self.config.public_url:
            found = self.config.public_url
        elif public and found and self.config.audience == "team":
            log.warning(
                "site_url is the team's address: the public's cards have no codes. "
                "Set public_url under bowlbook in mkdocs.yml."
            )
            found = None
        if found and self.given.beneath:
            found = f"{found.rstrip('/')}/{quote(self.given.beneath)}/"
        return found

    def folder(self, config: MkDocsConfig) -> Path:
        """The recipes' folder: beside ``mkdocs.yml``, shown as the reader would type it where that works."""
        folder = self.given.recipes or Path(self.config.recipes)
        if folder.is_absolute() or not config.config_file_path:
            return folder
        beside = Path(config.config_file_path).parent / folder
        return folder if folder.resolve() == beside.resolve() else beside

    def books(self, config: MkDocsConfig) -> list[Path]:
        """The folders that no file may be published from as it is: of recipes, and of shared products."""
        configured = Path(config.config_file_path).parent / self.config.recipes
        folder = self.folder(config)
        return [each for each in (folder, configured, shelf_in(folder)) if each is not None]

    def sources(self, config: MkDocsConfig, recipes: Path) -> dict[str, Path]:
        """What a site is made from, by name."""
        found = {
            "the book's folder": recipes,
            "the folder of shared products": shelf_in(recipes),
            "the folder of pages written by hand": config.docs_dir,
            "the folder of the theme": config.theme.custom_dir,
            "the configuration": config.config_file_path,
        }
        return {name: Path(path) for name, path in found.items() if path}

    def since(self, config: MkDocsConfig) -> Since | None:
        """The last release and what changed after it; None without one."""
        folder, wanted = self.folder(config), self.config.release
        if wanted == "none" or self.book is None:
            return None
        try:
            release = last_release(folder) if wanted == "auto" else wanted
            if release is None:
                return None
            old = book_at(folder, release, lambda text: log.warning(f"{release}: {text}"))
        except NoRevision as error:
            if wanted != "auto":
                raise PluginError(f"release: {error}") from error
            if not isinstance(error, NothingThere):  # that is a release from before there was a book
                log.warning(f"Recent changes: nothing to compare with. {error}")
            return None
        return Since(release, tuple(differences(copy_for(old, self.audience), self.book))) if old else None

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the book's pages, data and assets; leave out the theme's scripts, which no page asks for."""
        if self.book is None:
            return files
        if self.dirty:
            files = self.last.begin(files)
        by_hand = {each.dest_uri: each for each in files if each.inclusion.value > InclusionLevel.DRAFT.value}
        for file in [each for each in files if each.src_uri.startswith(THEME_SCRIPTS)]:
            files.remove(file)
        makers = makers_of(self.book, self.since(config), config.site_url or "")
        self.kept = self.pages(config)
        for made in self.kept.all_made(self.book, self.audience, makers):
            if isinstance(made, PackedDocument):
                files.append(document_file(made, config))
                if made.path.startswith(f"{DATA}/{PICK}-"):
                    self.pick = made.path.removeprefix(f"{DATA}/")
                continue
            address = f"{made.address}index.md"
            file = OwnFile.generated(config, address, content="", inclusion=InclusionLevel.NOT_IN_NAV)
            EntryPage(made, file, config)
            files.append(file)
        for asset in asset_files():
            name = f"{asset_folder()}/{asset.name}"
            files.append(OwnFile.generated(config, name, abs_src_path=str(asset)))
        _no_two_in_one_place(by_hand, files)
        manifest = compact(app_manifest(self.book, asset_folder()))
        files.append(OwnFile.generated(config, "manifest.webmanifest", content=manifest))
        return files

    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:
        """Remember the navigation, which every page shows; all files are known now, also other plugins'."""
        stray = stray_in(files, config, self.books(config))
        if stray is not None:
            raise PluginError(stray)
        self.nav = nav
        return nav

    def pages(self, config: MkDocsConfig) -> KeptPages:
        """The pages made before: of the last build, and while serving of the last reload."""
        path = self.kept_here(config, "pages")
        if not self.serving:
            return KeptPages(path)
        if BowlbookPlugin.served is None:
            BowlbookPlugin.served = KeptPages(path)
        return BowlbookPlugin.served

    def kept_here(self, config: MkDocsConfig, purpose: str) -> Path | None:
        """Where something of this copy of the book is kept; None where nothing is."""
        return kept_file(self.folder(config), f"{self.audience}-{purpose}")

    def on_env(self, env: Any, *, config: MkDocsConfig, files: Files) -> Any:
        """Date the pages, and write the search index: entries from the data, other pages from their text."""
        env.bytecode_cache = self.compiled
        theme = FileSystemLoader(config.theme.dirs[config.theme.dirs.index(str(OVERRIDES)) + 1 :])
        env.loader = ChoiceLoader([env.loader, PrefixLoader({"theme": theme})])
        pages = files.documentation_pages()
        day = newest(self.book).isoformat() if self.book is not None else None
        for file in pages:
            if file.page is not None and day is not None:
                file.page.update_date = day
        self.made, self.planned = 0, len(pages)
        self.scripts_looked_for = False
        index = compact(search_index(found for file in pages if (found := _found(file)) is not None))
        name = data_name("search", index)
        folder = Path(config.site_dir) / DATA
        folder.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(index, encoding="utf-8", newline="\n")
        names = compact({"search": name, "pick": self.pick})
        (folder / "names.json").write_text(names, encoding="utf-8", newline="\n")
        if self.dirty:
            self.last.choose(files, self.nav, config, self)
            self.last.note(f"{DATA}/{name}")
        if self.config.splice:
            spliced = Spliced(env.get_template("main.html"))
            of_theme = env.get_template
            env.get_template = lambda name, *more: spliced if name == "main.html" else of_theme(name, *more)
        return env

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Warn, once a build, where a template of the house keeps our scripts off the pages."""
        if isinstance(page, EntryPage) and not self.scripts_looked_for:
            self.scripts_looked_for = True
            if f"{asset_folder()}/{SCRIPT}" not in output:
                log.warning(NO_SCRIPTS.format(config.theme.custom_dir or "the theme"))
        return output

    def on_page_context(self, context: TemplateContext, **given: object) -> TemplateContext:
        """Count the pages as they are made."""
        self.made += 1
        if self.dirty:
            context["pages"] = self.last.noting(context["pages"])
        if self.given.tell is not None:
            self.given.tell(self.made, self.planned)
        return context

    def on_serve(
        self, server: LiveReloadServer, *, config: MkDocsConfig, builder: object
    ) -> LiveReloadServer:
        """Reload when a recipe or a shared product changes, and soon."""
        for path in filter(None, [config.docs_dir, config.config_file_path]):
            server.unwatch(path)
        guarded(server)
        server.observer = cast(Any, Watcher(before=self.before))
        server.build_delay = QUIET_FOR
        for path in self.watched(config):
            server.watch(path)
        BowlbookPlugin.server = server
        return server

    def watched(self, config: MkDocsConfig) -> list[str]:
        """The files and folders whose changes are shown."""
        folder = self.folder(config)
        paths = (config.docs_dir, config.config_file_path, folder, shelf_in(folder))
        return [str(each) for each in paths if each]

    def watch_shelf(self, config: MkDocsConfig) -> None:
        """Reload when a shared product changes; the house may name their folder at any time."""
        shelf = shelf_in(self.folder(config))
        if self.server is not None and shelf is not None:
            self.server.watch(str(shelf))

    @event_priority(-100)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Pack the copy for the phone, and list what was made, last of all."""
        site = Path(config.site_dir)
        if self.dirty:
            self.last.end(site)
        if not self.serving:
            self.kept.written()
            worker = WORKER.read_text(encoding="utf-8")
            write_copy(site, worker, self.kept_here(config, "copy"), self.without)
            write_manifest(site, self.audience)


def _without(nav: Any, page: str) -> Any:
    """The navigation without a page that this copy does not have."""
    if isinstance(nav, list):
        kept = [_without(each, page) for each in nav]
        return [each for each in kept if each is not None]
    if isinstance(nav, dict):
        return {key: _without(value, page) for key, value in nav.items() if value != page} or None
    return None if nav == page else nav


def _no_two_in_one_place(by_hand: dict[str, File], files: Files) -> None:
    """Refuse a page by hand where a page of the book stands: one of them would be lost without a word."""
    for file in files:
        other = by_hand.get(file.dest_uri) if file.generated_by else None
        if other is not None:
            text = f"{other.src_uri} would stand in the place of the book's own {file.url}"
            raise PluginError(f"{text}; give it another name.")


def newest(book: Book) -> date:
    """The day of the newest review: the date in the site's map, since pages do not ask the clock."""
    stamps = (getattr(entry, "reviewed", None) for _, entry in book.entries())
    return max((stamp.on for stamp in stamps if stamp is not None), default=date(1980, 1, 1))


def _found(file: File) -> Found | None:
    """A page as search finds it; None for one that it leaves out."""
    page = file.page
    if isinstance(page, EntryPage):
        finished = page.finished
        if finished.search is None:
            return None
        return Found(page.url, finished.search.kind, finished.description, finished.search)
    if page is None:
        return None
    text = re.sub(r"<[^>]*>", " ", page.content or "")
    return Found(page.url, "About this book", "", SearchEntry(unescape(str(page.title)), unescape(text)))
