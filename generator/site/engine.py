"""MkDocs run from our own commands: a build into a folder, and the preview server."""

import logging
import signal
from collections.abc import Callable
from pathlib import Path
from typing import Any

import mkdocs.commands.build
import mkdocs.commands.serve
from mkdocs.config import load_config
from mkdocs.exceptions import MkDocsException

from generator.book.read_book import Progress
from generator.checks.judge import Judgement
from generator.site.plugin import BowlbookPlugin, Given


class BuildFailed(Exception):
    """MkDocs could not build the site; the message is its own."""


class _Listener(logging.Handler):
    """Passes on what MkDocs warns of, and counts it."""

    def __init__(self, say: Callable[[str], None]) -> None:
        super().__init__(logging.WARNING)
        self.say, self.count = say, 0

    def emit(self, record: logging.LogRecord) -> None:
        self.count += 1
        self.say(record.getMessage())


def build_into(
    folder: Path,
    config_file: Path,
    judgement: Judgement,
    say: Callable[[str], None],
    tell: Progress | None = None,
    audience: str | None = None,
    recipes: Path | None = None,
    beneath: str = "",
) -> int:
    """Build the site of a judged book into an empty folder.

    ``audience``: team or public, and ``recipes``: the book's folder, else as the configuration says.
    ``beneath``: in which folder beneath the configuration's address the site will be served. ``say`` gets
    each warning of MkDocs, ``tell`` how far the build has come; returned is how many warnings there were.
    Raises `BuildFailed`.
    """
    listener = _Listener(say)
    logger = logging.getLogger("mkdocs")
    logger.addHandler(listener)
    logger.propagate = False
    folder_of_book = recipes.resolve() if recipes is not None else None
    BowlbookPlugin.given = Given(folder_of_book, audience, judgement, tell, beneath)
    try:
        config = load_config(str(config_file), site_dir=str(folder))
        if not isinstance(config.plugins.get("bowlbook"), BowlbookPlugin):
            raise BuildFailed(f"{config_file} does not name the plugin bowlbook.")
        config.plugins.on_startup(command="build", dirty=False)
        try:
            mkdocs.commands.build.build(config)
        finally:
            config.plugins.on_shutdown()
    except MkDocsException as error:
        raise BuildFailed(str(error)) from error
    finally:
        BowlbookPlugin.given = Given()
        logger.removeHandler(listener)
        logger.propagate = True
    return listener.count


def serve(config_file: Path, address: str | None, open_in_browser: bool, recipes: Path | None) -> None:
    """Serve the site and rebuild it when an entry, a page or the configuration changes.

    A closed terminal and the system's asking end it as ctrl-c does, and nothing of the site is left behind.
    """
    for asked in (signal.SIGTERM, getattr(signal, "SIGHUP", signal.SIGTERM)):
        if signal.getsignal(asked) == signal.SIG_DFL:  # one that is ignored stays so
            signal.signal(asked, signal.default_int_handler)
    options: dict[str, Any] = {"dev_addr": address} if address else {}
    logger = logging.getLogger("mkdocs")
    handler = logging.StreamHandler()
    handler.setFormatter(logging.Formatter("%(message)s"))
    logger.addHandler(handler)
    logger.setLevel(logging.INFO)
    BowlbookPlugin.given = Given(recipes=recipes.resolve() if recipes is not None else None)
    try:
        # MkDocs warns of such builds; in ours every file is told whether it changed (`rebuild.py`).
        logging.getLogger("mkdocs.commands.build").addFilter(
            lambda record: "'dirty'" not in record.getMessage()
        )
        mkdocs.commands.serve.serve(
            str(config_file), build_type="dirty", open_in_browser=open_in_browser, **options
        )
    except MkDocsException as error:
        raise BuildFailed(str(error)) from error
