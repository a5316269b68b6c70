"""Pages written by hand: MkDocs renders one again where its text, the options or any address has changed."""

import logging
import re
from functools import partial
from importlib.util import find_spec
from pathlib import Path
from typing import NamedTuple

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import TableOfContents

from bowlbook.cache.cache import Cache
from bowlbook.cache.digest import digest_of
from bowlbook.site.inputs import libraries_digest
from bowlbook.site.listening import listening
from bowlbook.site.own_file import DocumentFile

FOREIGN = re.compile(r"^\s*INHERIT\b|(?:^|[\s:\[{,-])!", re.M)
"""What in a configuration takes in other files, environment variables or Python objects."""
READS_FILES = ("pymdownx.snippets", "pymdownx.b64")
"""Extensions of Markdown that take in files from anywhere."""
log = logging.getLogger("mkdocs.structure.pages")


def is_rendered_alone(config: MkDocsConfig) -> bool:
    """Whether text becomes HTML by the configuration's own words, and by libraries that read nothing else."""
    if not config.config_file_path:
        return False
    written = Path(config.config_file_path).read_text(encoding="utf-8-sig")
    if FOREIGN.search(written) or config.hooks or len(config.plugins) > 1:
        return False
    return all(
        each not in READS_FILES
        and (each.startswith(("pymdownx.", "material.")) or find_spec(f"markdown.extensions.{each}"))
        for each in config.markdown_extensions
    )


class _Rendered(NamedTuple):
    """What `Page.render` sets. ``links``: by the path of the file; ``said``: levels and messages."""

    content: str | None
    toc: TableOfContents
    title: str | None
    anchors: set[str] | None
    links: dict[str, dict[str, str]] | None
    said: list[tuple[int, str]]


class HandPages:
    """The pages written by hand of one build."""

    def __init__(self, cache: Cache, config: MkDocsConfig, files: Files) -> None:
        self.cache = cache
        options = (config.markdown_extensions, config.mdx_configs, config.validation, log.getEffectiveLevel())
        addresses = [(each.src_uri, each.url, each.inclusion) for each in files if not _is_data(each)]
        self.inputs = digest_of(libraries_digest(), repr((options, addresses)))

    def render(self, page: Page, config: MkDocsConfig, files: Files) -> None:
        """In the place of `Page.render`."""
        inputs = digest_of(self.inputs, page.markdown or "")
        make = partial(_rendered, page, config, files)
        found = self.cache.get_or_make("page by hand", page.file.src_uri, inputs, make)
        page.content, page.toc, page._title_from_render = found.content, found.toc, found.title
        page.present_anchor_ids = found.anchors
        if found.links is not None:
            page.links_to_anchors = {files.src_uris[path]: each for path, each in found.links.items()}
        for level, message in found.said:
            log.log(level, message)


def _is_data(file: File) -> bool:
    """Whether a file is named after its content, as our scripts' data is: nobody can write a link to it."""
    return isinstance(file, DocumentFile) and file.src_uri.endswith(".json")


def _rendered(page: Page, config: MkDocsConfig, files: Files) -> _Rendered:
    said: list[tuple[int, str]] = []
    # It is logged by `HandPages.render`, each time.
    with listening(log, logging.NOTSET, lambda record: said.append((record.levelno, record.getMessage()))):
        Page.render(page, config, files)
    found = page.links_to_anchors
    links = None if found is None else {file.src_uri: each for file, each in found.items()}
    rendered = (page.content, page.toc, page._title_from_render, page.present_anchor_ids)
    return _Rendered(*rendered, links, said)
