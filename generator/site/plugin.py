"""The MkDocs plugin: judges the book, hands its pages over as generated files, and watches the recipes."""

import json
import logging
from dataclasses import dataclass
from html import escape
from pathlib import Path
from typing import ClassVar

from mkdocs.config.base import Config
from mkdocs.config.config_options import Type
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.utils.templates import TemplateContext

from generator.book.book import Book
from generator.book.read_book import Progress, read_book
from generator.book.revision import NoRevision, last_release, recipes_at
from generator.checks.day import today
from generator.checks.judge import Judgement, judge
from generator.figures.difference import differences
from generator.pages.all_pages import documents_of, pages_of
from generator.pages.finder_data import finder_data
from generator.pages.release_page import Since
from generator.reading.finding import finding_text
from generator.site.entry_page import EntryPage
from generator.site.manifest import write_manifest

log = logging.getLogger("mkdocs.plugins.bowlbook")

HERE = Path(__file__).parent
ASSETS = HERE.parent / "pages" / "assets"


class BowlbookConfig(Config):  # type: ignore[no-untyped-call]  # MkDocs leaves it untyped
    """What ``mkdocs.yml`` may say under ``bowlbook``."""

    recipes = Type(str, default="recipes")
    release = Type(str, default="auto")
    """What the page of changes compares with: a git revision, auto for the newest tag, or none."""


@dataclass(frozen=True, slots=True)
class Given:
    """What a command of our own hands the plugin, however often MkDocs makes it anew.

    Another folder of recipes than the configuration's; the book, where it was judged and its findings told;
    whom to tell how many of how many pages have been made.
    """

    recipes: Path | None = None
    judgement: Judgement | None = None
    tell: Progress | None = None


class BowlbookPlugin(BasePlugin[BowlbookConfig]):  # type: ignore[no-untyped-call]  # as above
    """Turns a folder of recipes into pages. Stops the build, before anything is written, on an error."""

    given: ClassVar[Given] = Given()

    book: Book | None = None
    made: int = 0
    planned: int = 0

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Read and check the book, and set what the theme needs from it."""
        if not config.use_directory_urls:
            raise PluginError("Bowlbook needs use_directory_urls: true.")
        judgement = self.given.judgement or judge(self.folder(config), today())
        errors = judgement.errors(strict=bool(config.strict))
        if self.given.judgement is None:
            for finding in judgement.findings:
                if finding not in errors:
                    log.warning(finding_text(finding))
        if errors or judgement.book is None:
            text = "\n".join(map(finding_text, errors))
            raise PluginError(f"The book has {len(errors)} findings; nothing was built.\n{text}")
        self.book = judgement.book
        config.site_name = escape(self.book.house.title)
        config.extra["bowlbook_notice"] = escape(self.book.house.notice or "")
        config.theme.dirs.insert(1 if config.theme.custom_dir else 0, str(HERE / "overrides"))
        config.extra_css.append("assets/bowlbook.css")
        return config

    def folder(self, config: MkDocsConfig) -> Path:
        """The recipes' folder: beside ``mkdocs.yml``, shown as the reader would type it where that works."""
        folder = self.given.recipes or Path(self.config.recipes)
        if folder.is_absolute() or not config.config_file_path:
            return folder
        beside = Path(config.config_file_path).parent / folder
        return folder if folder.resolve() == beside.resolve() else beside

    def since(self, config: MkDocsConfig) -> Since | None:
        """The last release and what changed after it; None without one."""
        folder, wanted = self.folder(config), self.config.release
        if wanted == "none" or self.book is None:
            return None
        release = last_release(folder) if wanted == "auto" else wanted
        if release is None:
            return None
        try:
            with recipes_at(folder, release) as then:
                old = read_book(then).book
        except NoRevision as error:
            if wanted == "auto":  # a release from before there was a book
                return None
            raise PluginError(f"release: {error}") from error
        return Since(release, tuple(differences(old, self.book))) if old else None

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the book's pages and assets."""
        if self.book is None:
            return files
        for page in pages_of(self.book, self.since(config)):
            file = File.generated(
                config, f"{page.address}index.md", content="", inclusion=InclusionLevel.NOT_IN_NAV
            )
            EntryPage(page, file, config)
            files.append(file)
        data = json.dumps(finder_data(self.book), ensure_ascii=False, separators=(",", ":"))
        files.append(File.generated(config, "assets/finder.json", content=data))
        for document in documents_of(self.book, config.site_url or ""):
            files.append(File.generated(config, document.path, content=document.text))
        for asset in sorted(ASSETS.iterdir()):
            files.append(File.generated(config, f"assets/{asset.name}", abs_src_path=str(asset)))
        return files

    def on_env(self, env: object, *, config: MkDocsConfig, files: Files) -> None:
        """Give search its entries straight from the data."""
        self.made, self.planned = 0, len(files.documentation_pages())
        search = config.plugins.get("material/search")
        if search is None:
            return
        for file in files.documentation_pages():
            if isinstance(file.page, EntryPage) and file.page.finished.search is not None:
                entry = file.page.finished.search
                search.search_index.entries.append(
                    {
                        "location": file.page.url,
                        "title": escape(entry.title, quote=False),
                        "text": f"<p>{escape(entry.text, quote=False)}</p>",
                    }
                )

    def on_page_context(self, context: TemplateContext, **given: object) -> TemplateContext:
        """Count the pages as they are made."""
        self.made += 1
        if self.given.tell is not None:
            self.given.tell(self.made, self.planned)
        return context

    def on_serve(
        self, server: LiveReloadServer, *, config: MkDocsConfig, builder: object
    ) -> LiveReloadServer:
        """Reload when a recipe changes."""
        server.watch(str(self.folder(config)))
        return server

    @event_priority(-100)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """List what was made, last of all, so that a later build knows what it may replace."""
        write_manifest(Path(config.site_dir))
