"""What ``mkdocs.yml`` may say under ``bowlbook``, and what follows from it for one build."""

import os
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from urllib.parse import quote

from mkdocs.config.config_options import URL, SubConfig, Type
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import get_plugin_logger
from mkdocs.structure.files import File

from bowlbook.book.audience import AUDIENCES
from bowlbook.book.shelf_folder import shelf_in
from bowlbook.site.beneath import Beneath
from bowlbook.site.manifest import other_copy
from bowlbook.site.offline_limit import OfflineConfig
from bowlbook.site.published_folders import danger_in
from bowlbook.site.repository import Repository
from bowlbook.site.settings import OneOf, StrictConfig, misplaced_option

log = get_plugin_logger("bowlbook")
THEME = "material"
REPLACE = "BOWLBOOK_REPLACE"
"""The environment variable that lets plain MkDocs build one audience's copy over the other's: ``1``."""


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
    beneath = Beneath()
    """The folder of an existing site that the book is put beneath; empty, the site is the book's."""
    new_file = Type(str, default="")
    """Where a file is begun in the house's repository, with ``{folder}``, ``{name}`` and ``{text}`` in it."""
    manual = Type(bool, default=False)
    """Whether the site has the manual: how to write recipes, every field, every finding, the commands."""
    offline = SubConfig(OfflineConfig)
    """Limits of what files written by hand take in the copy on the phone."""


def refuse(config: MkDocsConfig, options: BowlbookConfig, audience: str, asked: Path | None) -> None:
    """Refuse a configuration that would publish the wrong copy, or what is not to be published at all.

    ``audience``: whose copy is built, ``asked``: another folder of recipes. Raises `PluginError`.
    """
    every = [getattr(plugin, "config", None) for plugin in config.plugins.values()]  # a hook has none
    if sum(isinstance(each, BowlbookConfig) for each in every) > 1:
        raise PluginError("mkdocs.yml names the plugin bowlbook twice. Delete one of the two.")
    reason = misplaced_option(config, {key for key, _ in config._schema}, options)
    reason = reason or danger_in(config, book_folders(config, options, asked))
    if reason is not None:
        raise PluginError(reason)
    other = None if os.environ.get(REPLACE) == "1" else other_copy(Path(config.site_dir), audience)
    if other is not None:
        raise PluginError(f"{other} Build it into another folder, or set {REPLACE}=1 to replace it.")


def other_theme(config: MkDocsConfig) -> str | None:
    """A sentence on an installed theme that is not built on Material; a house's own may be written for us."""
    own = theme_folder()
    name = config.theme.name
    if name is None or (own and any(Path(each).is_relative_to(own) for each in config.theme.dirs)):
        return None
    return f"mkdocs.yml: pages of a book need the theme {THEME}, not {name}. Write it under theme, name."


def is_of_theme(file: File) -> bool:
    """Whether a file is a style, script or image that came with the theme: our pages ask for none of them."""
    own = theme_folder()
    if own is None or file.src_dir is None or not file.src_uri.startswith("assets/"):
        return False
    return Path(file.src_dir).is_relative_to(own)


@cache
def theme_folder() -> Path | None:
    """Where the theme is installed."""
    spec = find_spec(THEME)
    return Path(str(spec.origin)).parent if spec is not None else None


def address_of(config: MkDocsConfig, options: BowlbookConfig, audience: str, beneath: str) -> str | None:
    """Where this copy is served: canonical links and the codes on cards lead there."""
    found = config.site_url
    if audience == "public" and options.public_url:
        found = options.public_url
    elif audience == "public" and found and options.audience == "team":
        log.warning(
            "site_url is the team's address: the public's cards have no codes. "
            "Set public_url under bowlbook in mkdocs.yml."
        )
        found = None
    return f"{found.rstrip('/')}/{quote(beneath)}/" if found and beneath else found


def recipes_folder(config: MkDocsConfig, options: BowlbookConfig, asked: Path | None) -> Path:
    """The recipes' folder: beside ``mkdocs.yml``, shown as the reader would type it where that works."""
    folder = asked or Path(options.recipes)
    if folder.is_absolute() or not config.config_file_path:
        return folder
    beside = Path(config.config_file_path).parent / folder
    return folder if folder.resolve() == beside.resolve() else beside


def book_folders(config: MkDocsConfig, options: BowlbookConfig, asked: Path | None) -> list[Path]:
    """The folders that no file may be published from as it is: of recipes, and of shared products."""
    configured = Path(config.config_file_path).parent / options.recipes
    folder = recipes_folder(config, options, asked)
    return [each for each in (folder, configured, shelf_in(folder)) if each is not None]


def sources_of(config: MkDocsConfig, recipes: Path) -> dict[str, Path]:
    """What a site is made from, by name."""
    found = {
        "the book's folder": recipes,
        "the folder of shared products": shelf_in(recipes),
        "the folder of pages written by hand": config.docs_dir,
        "the folder of the theme": config.theme.custom_dir,
        "the configuration": config.config_file_path,
    }
    return {name: Path(path) for name, path in found.items() if path}


def repository_of(config: MkDocsConfig, options: BowlbookConfig, recipes: Path) -> Repository:
    """The house's repository, as ``repo_url`` and ``edit_uri`` or ``edit_uri_template`` say it."""
    template = config.edit_uri_template or (f"{config.edit_uri}{{path}}" if config.edit_uri else "")
    top = Path(config.config_file_path).parent
    return Repository(recipes, top, Path(config.docs_dir), config.repo_url or "", template, options.new_file)
