"""MkDocs run from our own commands: a build into a folder."""

import logging
import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import mkdocs.commands.build
from jinja2 import TemplateError, TemplateSyntaxError
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import BuildError, MkDocsException

from bowlbook.book.read_book import Progress
from bowlbook.cache.digest import library_stamps
from bowlbook.cache.processes import frozen
from bowlbook.checks.judge import Judgement
from bowlbook.site import options
from bowlbook.site.hand_pages import is_rendered_alone
from bowlbook.site.incremental import Incremental, is_changed_by_others
from bowlbook.site.inputs import LIBRARIES
from bowlbook.site.listening import listening
from bowlbook.site.plugin import BowlbookPlugin
from bowlbook.site.record import Inputs
from bowlbook.site.session import Session

log = logging.getLogger("mkdocs.bowlbook")
Say = Callable[[str], object]
# MkDocs warns of builds that write only what changed; in ours every file has an explicit modified flag.
logging.getLogger("mkdocs.commands.build").addFilter(lambda record: "'dirty'" not in record.getMessage())


class BuildFailed(MkDocsException):
    """MkDocs could not build the site; the message is its own."""


@contextmanager
def logged_to(say: Say) -> Iterator[None]:
    """Pass what MkDocs warns of to ``say``, and its exceptions on as `BuildFailed`."""
    try:
        with listening(logging.getLogger("mkdocs"), logging.WARNING, lambda record: say(record.getMessage())):
            yield
    except MkDocsException as error:
        logged = isinstance(error.__context__, BuildError)  # then this exception only says that MkDocs ends
        raise BuildFailed("The reason is above." if logged else str(error)) from error
    except TemplateError as error:
        raise BuildFailed(f"A template of the theme cannot be used: {_of_template(error)}") from error


def _of_template(error: TemplateError) -> str:
    """Where in which template the error is, as far as that is known, and what it is."""
    where = f"{error.filename}, line {error.lineno}: " if isinstance(error, TemplateSyntaxError) else ""
    return f"{where}{error.message or type(error).__name__}."


def loaded(config_file: Path, **given: Any) -> tuple[MkDocsConfig, BowlbookPlugin]:
    """The configuration and our plugin in it."""
    config = load_config(str(config_file), **given)
    plugin = config.plugins.get("bowlbook")
    if not isinstance(plugin, BowlbookPlugin):
        raise BuildFailed(f"{config_file} does not name the plugin bowlbook.")
    return config, plugin


def sources_of(config_file: Path, recipes: Path) -> tuple[dict[str, Path], Inputs]:
    """The folders and files that a site is made from, by name, and the same as inputs without their digest.

    Raises `BuildFailed`.
    """
    errors: list[str] = []
    try:
        with logged_to(errors.append):
            config, plugin = loaded(config_file)
    except BuildFailed as error:
        raise BuildFailed("\n".join([*errors, str(error)])) from error
    sources = options.sources_of(config, recipes)
    paths = tuple(os.path.abspath(each) for each in sources.values())  # noqa: PTH100  # links stay links
    inputs = Inputs(b"", paths, str(recipes), plugin.config.release)
    return sources, inputs if _is_all_read(config) else Inputs()


def _is_all_read(config: MkDocsConfig) -> bool:
    """Whether a build reads nothing beside the sources and this program with its libraries."""
    # Strict: warnings stop it, and those of the book depend on the day.
    if config.strict or not is_rendered_alone(config):
        return False
    own, libraries = config.theme.custom_dir, [Path(each).parent for each, *_ in library_stamps(LIBRARIES)]
    return all(  # else a theme of another package
        each == own or any(Path(each).is_relative_to(library) for library in libraries)
        for each in config.theme.dirs
    )


def build_into(
    folder: Path,
    config_file: Path,
    judgement: Judgement,
    say: Say,
    progress: Progress | None = None,
    audience: str | None = None,
    recipes: Path | None = None,
    beneath: str = "",
    incremental: Incremental | None = None,
) -> None:
    """Build the site of a judged book into an empty folder.

    ``audience``: team or public, and ``recipes``: the book's folder, else as the configuration says.
    ``beneath``: in which folder beneath the configuration's address the site will be served. ``say`` gets
    each warning of MkDocs, ``progress`` how many of how many pages have been rendered. ``incremental``: what
    may be taken from the last site, unless another plugin or a hook may change any file.

    Raises `BuildFailed`.
    """
    folder_of_book = recipes.resolve() if recipes is not None else None
    with logged_to(say):
        config, plugin = loaded(config_file, site_dir=str(folder))
        if incremental is not None:
            incremental.beneath = plugin.config.beneath
        if is_changed_by_others(config, plugin):
            incremental = None
        plugin.session = Session(folder_of_book, audience, judgement, progress, beneath, incremental)
        dirty = incremental is not None
        config.plugins.on_startup(command="build", dirty=dirty)
        try:
            with frozen():
                mkdocs.commands.build.build(config, dirty=dirty)
        finally:
            config.plugins.on_shutdown()
            plugin.session = Session()
