"""The MkDocs plugin: judges the book and hands its pages over as generated files."""

from __future__ import annotations

import logging
from datetime import date
from functools import partial
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, cast

from jinja2 import ChoiceLoader, FileSystemLoader, PrefixLoader
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from bowlbook.book.audience import copy_for
from bowlbook.book.book import Book
from bowlbook.book.shelf_folder import shelf_in
from bowlbook.cache.cache import Cache
from bowlbook.checks.day import today
from bowlbook.checks.judge import judge
from bowlbook.pages.all_pages import makers_of, manual_makers, safety_maker
from bowlbook.pages.app_manifest import app_manifest, home_icon
from bowlbook.pages.asset import STYLE, asset_folder, compact
from bowlbook.pages.maker import Maker
from bowlbook.pages.manual import manual_files
from bowlbook.pages.policy import POLICY
from bowlbook.pages.render import Compiled, set_compiled
from bowlbook.reading.amount import counted
from bowlbook.reading.finding import finding_text
from bowlbook.site import book_files
from bowlbook.site.beneath import FRAME, book_environment, menu_for_pages, options_for_pages
from bowlbook.site.book_history import prices_over_time, since_release
from bowlbook.site.book_pages import pages_of
from bowlbook.site.docs_folder import refuse_unpublishable
from bowlbook.site.entry_page import EntryPage
from bowlbook.site.folded import folded
from bowlbook.site.hand_pages import HandPages, is_rendered_alone
from bowlbook.site.house_style import house_style, style_name
from bowlbook.site.incremental import Incremental
from bowlbook.site.manifest import without_empty_folders, write_manifest
from bowlbook.site.menu import absent_pages, menu_of, titled_pages, without_pages
from bowlbook.site.offline import write_copy
from bowlbook.site.offline_limit import left_out_of
from bowlbook.site.options import (
    BowlbookConfig,
    address_of,
    book_folders,
    is_of_theme,
    other_theme,
    recipes_folder,
    refuse,
    repository_of,
    sources_of,
)
from bowlbook.site.own_file import OwnFile, begin_writing
from bowlbook.site.picture_files import left_on_the_server, picture_files
from bowlbook.site.place import fault_of_place
from bowlbook.site.published_folders import stray_in
from bowlbook.site.search_files import write_search
from bowlbook.site.session import Session
from bowlbook.site.splice import Spliced
from bowlbook.site.theme_files import list_without_icons

if TYPE_CHECKING:  # only the preview loads them
    from mkdocs.livereload import LiveReloadServer

log = logging.getLogger("mkdocs.plugins.bowlbook")

HERE = Path(__file__).parent
WORKER = HERE / "worker.js"
OVERRIDES = HERE / "overrides"
SCRIPT = "site.js"
NO_SCRIPTS = (
    "Templates in {} keep the book's scripts off its pages: no search, no other sizes, no timers. "
    "Let main.html extend base.html, and its block scripts call super()."
)
SAFETY = "safety/index.html"
"""The page that every page leads to: the house's own, written by hand, or else ours."""
MAP, INSTANT = "sitemap.xml", "navigation.instant"
"""The map of a site, and the theme's feature that replaces a page's content by that of a page in the map."""
QUIET_FOR = 0.05
"""Seconds without another change after which a preview is built: an editor may write several times."""


class BowlbookPlugin(BasePlugin[BowlbookConfig]):  # type: ignore[no-untyped-call]  # MkDocs leaves it untyped
    """Turns a folder of recipes into pages. Stops the build, before anything is written, on an error.

    MkDocs keeps one instance for all builds of a process.
    """

    def __init__(self) -> None:
        super().__init__()
        self.session = Session()
        self.book: Book
        """Read in `on_config`, the first event of a build."""
        self.cache = Cache()
        self.audience = "team"
        self.without: set[str] = set()
        """Files written by hand that the phone does not keep."""
        self.pick = ""
        self.house_style = ""
        self.own_icon: dict[str, str] | None = None
        self.rendered = self.planned = 0
        self.scripts_looked_for = False
        self.hand_pages: HandPages | None = None
        self.frame: Spliced | None = None
        self.writing = begin_writing(())
        """Documents that other processes write while this one renders pages by hand."""

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Note whether this is the preview."""
        self.session.serving = command == "serve"
        if dirty and self.session.incremental is None:
            self.session.incremental = Incremental()

    def on_shutdown(self) -> None:
        """Let no process write on where a build has failed."""
        self.writing.close()

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Read and check the book, and set what the theme needs from it."""
        session = self.session
        if session.serving:
            if session.server is None:
                from bowlbook.site.watching import snapshots_of

                session.snapshots = snapshots_of(self.watched(config))
            self.watch_shelf(config)
        self.audience = session.audience or self.config.audience
        refuse(config, self.config, self.audience, session.recipes)
        if not config.use_directory_urls:
            raise PluginError("Bowlbook needs use_directory_urls: true.")
        if (fault := other_theme(config)) is not None:
            raise PluginError(fault)
        if not session.serving and session.judgement is None:  # else MkDocs builds into a temporary folder
            fault = fault_of_place(Path(config.site_dir), sources_of(config, self.folder(config)))
            if fault is not None:
                raise PluginError(fault)
        self.cache = session.cache_of(self.folder(config))
        self.book = copy_for(self.judged(config), self.audience)
        self.without, self.house_style, self.own_icon = set(), "", None
        if not self.beneath:  # else docs_dir and theme are another site's
            files = refuse_unpublishable(config)
            if not session.serving:
                self.without = left_out_of(files, self.config.offline, log.warning)
            self.set_theme(config)
        if not session.serving:
            config.site_url = address_of(config, self.config, self.audience, session.beneath)
        return config

    @property
    def beneath(self) -> str:
        """The folder of an existing site that the book is beneath, with a slash; empty without one."""
        return self.config.beneath

    def judged(self, config: MkDocsConfig) -> Book:
        """The book, with its warnings printed unless a command did so. Raises `PluginError` for errors."""
        judgement = self.session.judgement or judge(self.folder(config), today(), cache=self.cache)
        errors = judgement.errors(strict=bool(config.strict))
        if self.session.judgement is None:
            for finding in judgement.findings:
                if finding not in errors:
                    log.warning(finding_text(finding))
        if errors or judgement.book is None:
            text = "\n".join(map(finding_text, errors))
            raise PluginError(f"The book has {counted(len(errors), 'finding')}; nothing was built.\n{text}")
        return judgement.book

    def set_theme(self, config: MkDocsConfig) -> None:
        """Set what the theme shows, and put our templates in front of its own."""
        config.site_name = escape(self.book.house.title)
        config.extra.update(self.options())
        config.theme.dirs.insert(1 if config.theme.custom_dir else 0, str(OVERRIDES))
        list_without_icons(config.theme)
        favicon = Path(config.docs_dir, config.theme["favicon"])
        if favicon.is_file():  # the house's own
            self.own_icon = home_icon(config.theme["favicon"], favicon.read_bytes())
            if self.own_icon and favicon.suffix == ".png":
                config.extra["bowlbook_touch_icon"] = config.theme["favicon"]
        else:
            config.theme["favicon"] = f"{asset_folder()}/icon.svg"
        colours = house_style(config)
        for warning in colours.warnings:
            log.warning(f"mkdocs.yml: {warning}")
        self.house_style = colours.style
        ours = [f"{asset_folder()}/{STYLE}", *([style_name(colours.style)] if colours.style else [])]
        config.extra_css[:0] = ours  # a house's own come after them

    def options(self) -> dict[str, Any]:
        """What our templates need beside the page."""
        return {
            "bowlbook_notice": escape(self.book.house.notice or ""),
            "bowlbook_top": self.beneath,
            "bowlbook_assets": f"{self.beneath}{asset_folder()}",
            "bowlbook_touch_icon": f"{self.beneath}{asset_folder()}/icon-192.png",
            "bowlbook_policy": None if self.session.serving else POLICY,
        }

    def folder(self, config: MkDocsConfig) -> Path:
        """The recipes' folder."""
        return recipes_folder(config, self.config, self.session.recipes)

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the book's pages, data and assets; leave out the theme's own, which no page asks for."""
        if self.session.incremental is not None:
            files = self.session.incremental.begin(files, Path(config.site_dir))
        by_hand = {each.dest_uri: each for each in files if each.inclusion.value > InclusionLevel.DRAFT.value}
        if not self.beneath:
            for file in [each for each in files if is_of_theme(each)]:
                files.remove(file)
        folder = self.folder(config)
        repository = repository_of(config, self.config, folder) if self.audience == "team" else None
        site_url = f"{config.site_url.rstrip('/')}/{self.beneath}" if config.site_url else ""
        makers = self.makers(folder, site_url, with_safety=f"{self.beneath}{SAFETY}" not in by_hand)
        set_compiled(Compiled(self.cache))
        finished = pages_of(self.cache, self.book, self.audience, makers)
        pages = book_files.page_files(self.book, finished, config, self.beneath, repository)
        self.pick = pages.pick
        pictures = list(picture_files(self.book, self.cache, config, self.beneath))
        self.without |= left_on_the_server(pictures)
        for file in (
            *pages.files,
            *book_files.moved_files(self.book, pages.addresses, config, self.beneath, site_url),
            *pictures,
            *book_files.asset_files(config, self.beneath),
            *(book_files.manual_page_files(config, self.beneath) if self.config.manual else ()),
        ):
            files.append(file)
        book_files.refuse_two_in_one_place(by_hand, files)
        self.set_menu(config, files)
        manifest = compact(app_manifest(self.book, asset_folder(), self.own_icon))
        files.append(OwnFile.generated(config, f"{self.beneath}manifest.webmanifest", content=manifest))
        if self.house_style:
            files.append(OwnFile.generated(config, style_name(self.house_style), content=self.house_style))
        return files

    def makers(self, folder: Path, site_url: str, *, with_safety: bool) -> list[Maker]:
        """The makers of all pages of this book, for this audience. ``folder``: the recipes."""
        wanted = (self.book, folder, self.config.release, self.audience, self.cache)
        return [
            *makers_of(self.book, since_release(*wanted), site_url, prices_over_time(*wanted)),
            *(manual_makers() if self.config.manual else ()),
            *([safety_maker()] if with_safety else ()),
        ]

    def set_menu(self, config: MkDocsConfig, files: Files) -> None:
        """Make the menu, or leave out of the configuration's own what this book does not have."""
        manual = self.config.manual
        if self.beneath:
            pass  # the menu is the site's
        elif config.nav is None:
            by_hand = files.documentation_pages(inclusion=InclusionLevel.is_in_nav)
            config.nav = cast(Any, menu_of(self.book, [each.src_uri for each in by_hand], manual=manual))
        else:
            config.nav = without_pages(config.nav, absent_pages(self.book, manual=manual))
        for title, path in titled_pages(config.nav):  # MkDocs asks only pages that it made itself
            file = files.get_file_from_path(path)
            if file is not None and isinstance(file.page, EntryPage):
                file.page.title = escape(title)

    @event_priority(-100)
    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:
        """Refuse a file of a book, and begin to write; all files are known now, also other plugins'."""
        self.hand_pages = HandPages(self.cache, config, files) if is_rendered_alone(config) else None
        stray = stray_in(files, config, book_folders(config, self.config, self.session.recipes))
        if stray is not None:
            raise PluginError(stray)
        self.nav = nav
        incremental = self.session.incremental
        if incremental is not None and not self.session.serving and not incremental.before.files:
            self.writing = begin_writing(files)
        return nav

    def on_env(self, env: Any, *, config: MkDocsConfig, files: Files) -> Any:
        """Date the pages, write the search index, and choose what is rendered."""
        env.bytecode_cache = Compiled(self.cache)
        own = env
        if self.beneath:
            own = book_environment(env, str(OVERRIDES), config.theme.dirs, config.theme.custom_dir)
        else:
            theme = FileSystemLoader(config.theme.dirs[config.theme.dirs.index(str(OVERRIDES)) + 1 :])
            env.loader = ChoiceLoader([env.loader, PrefixLoader({"theme": theme})])
        pages = files.documentation_pages()
        day = newest(self.book).isoformat()
        for file in pages:
            if file.page is not None and file.dest_uri.startswith(self.beneath):
                file.page.update_date = day
        self.scripts_looked_for = False
        self.rendered, self.planned = 0, len(pages)
        site, own_words = Path(config.site_dir), self.book.house.words
        index = write_search(site, pages, self.cache, self.pick, own_words, self.beneath)
        if self.session.incremental is not None:
            self.planned = self.session.incremental.choose(files, self.nav, config, self)
            self.session.incremental.add(index)
        main = own.get_template("main.html")
        waits = self.session.incremental is not None and not self.session.serving
        self.frame = Spliced(main, self.beneath, waits=waits) if self.config.splice else None
        frame = self.frame or main
        name, of_theme = FRAME if self.beneath else "main.html", env.get_template
        env.get_template = lambda asked, *more: frame if asked == name else of_theme(asked, *more)
        return env

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Let a page by hand be rendered through the cache: MkDocs calls its ``render`` next."""
        if self.hand_pages is not None and type(page) is Page:
            vars(page)["render"] = partial(self.hand_pages.render, page)
        return markdown

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Fold the long pages of the manual, and those written by hand that ask for it."""
        if isinstance(page, EntryPage):
            return html
        manual = page.file.generated_by and page.file.src_uri.removeprefix(self.beneath) in manual_files()
        return folded(html, manual=bool(manual))

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Warn, once a build, where a template of the house keeps our scripts off the pages."""
        if isinstance(page, EntryPage) and not self.scripts_looked_for:
            self.scripts_looked_for = True
            if f"{asset_folder()}/{SCRIPT}" not in output:
                log.warning(NO_SCRIPTS.format(config.theme.custom_dir or "the theme"))
        return output

    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Count the pages as they are rendered, and give those of a book beneath another site its options."""
        self.rendered += 1
        if self.beneath and isinstance(page, EntryPage):
            context["config"] = options_for_pages(config, self.options())
            context["nav"] = menu_for_pages(self.book, nav, config.site_name, self.beneath)
        if self.session.incremental is not None:
            context["pages"] = self.session.incremental.recording(context["pages"])
        if self.session.progress is not None:
            self.session.progress(self.rendered, self.planned)
        return context

    def on_template_context(
        self, context: TemplateContext, *, template_name: str, config: MkDocsConfig
    ) -> TemplateContext:
        """Keep a site that puts pages of its map into one another from doing so with pages of the book."""
        if self.beneath and template_name == MAP and INSTANT in config.theme.get("features", ()):
            context["pages"] = [each for each in context["pages"] if not isinstance(each.page, EntryPage)]
        return context

    def on_serve(
        self, server: LiveReloadServer, *, config: MkDocsConfig, builder: object
    ) -> LiveReloadServer:
        """Reload when a recipe or a shared product changes, and soon."""
        from bowlbook.site.preview import guarded
        from bowlbook.site.watching import Watcher

        for path in filter(None, [config.docs_dir, config.config_file_path]):
            server.unwatch(path)
        guarded(server)
        server.observer = cast(Any, Watcher(before=self.session.snapshots))
        server.build_delay = QUIET_FOR
        for path in self.watched(config):
            server.watch(path)
        self.session.server = server
        return server

    def watched(self, config: MkDocsConfig) -> list[str]:
        """The files and folders whose changes are shown."""
        folder = self.folder(config)
        paths = (config.docs_dir, config.config_file_path, folder, shelf_in(folder))
        return [str(each) for each in paths if each]

    def watch_shelf(self, config: MkDocsConfig) -> None:
        """Reload when a shared product changes; the house may name their folder at any time."""
        shelf = shelf_in(self.folder(config))
        if self.session.server is not None and shelf is not None:
            self.session.server.watch(str(shelf))

    @event_priority(-100)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Pack the copy for the phone, and list what was made, last of all."""
        for _ in self.writing:
            pass
        if self.frame is not None:
            self.frame.write()
        self.cache.close()
        site = Path(config.site_dir)
        incremental = self.session.incremental
        warning = NO_SCRIPTS.format(config.theme.custom_dir or "the theme")
        if incremental is not None and not self.scripts_looked_for and warning in incremental.before.warnings:
            log.warning(warning)  # no page was rendered in which it could be seen
        if self.session.serving:
            if incremental is not None:
                incremental.end_in_place(site)
            return
        if incremental is not None:
            incremental.keep_same(site)
        without = {name.removeprefix(self.beneath) for name in self.without}
        last = None if self.beneath else incremental  # its names are from the site's top
        names = without_empty_folders(site)
        of_book = [name.removeprefix(self.beneath) for name in names if name.startswith(self.beneath)]
        written = write_copy(site / self.beneath, of_book, WORKER.read_text(encoding="utf-8"), without, last)
        write_manifest(site, self.audience, [*names, *(f"{self.beneath}{name}" for name in written)])


def newest(book: Book) -> date:
    """The day of the newest review: the date in the site's map, since pages do not ask the clock."""
    days = (outline.reviewed_on for outline in book.outlines().values())
    return max(filter(None, days), default=date(1980, 1, 1))
