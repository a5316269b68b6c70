"""The preview, run from our own command. It alone loads what serves pages and watches files."""

import logging
import os
import signal
import tempfile
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import mkdocs.commands.build
from mkdocs.config.defaults import MkDocsConfig

from bowlbook.cache.processes import frozen
from bowlbook.site import options
from bowlbook.site.engine import loaded, log, logged_to
from bowlbook.site.incremental import Incremental
from bowlbook.site.preview import PreviewServer, check_address, guarded
from bowlbook.site.session import Session


def serve(config_file: Path, address: str | None, open_in_browser: bool, recipes: Path | None) -> None:
    """Serve the site and rebuild it when an entry, a page or the configuration changes.

    Begins also where the first build fails: the preview shows why. A closed terminal and the system's asking
    end it as ctrl-c does, and nothing of the site is left behind. Raises `BuildFailed` for a configuration
    that cannot be used, and `NoServer` for an address that cannot be.
    """
    for asked in (signal.SIGTERM, getattr(signal, "SIGHUP", signal.SIGTERM)):
        if signal.getsignal(asked) == signal.SIG_DFL:  # one that is ignored stays so
            signal.signal(asked, signal.default_int_handler)
    if address is not None:
        check_address(address)
    _log_to_terminal()
    asked = recipes.resolve() if recipes is not None else None
    session = Session(asked, incremental=Incremental(), serving=True)
    with tempfile.TemporaryDirectory(prefix="bowlbook-", ignore_cleanup_errors=True) as folder:
        site = Path(folder, "site")
        site.mkdir()
        if os.environ.get("BOWLBOOK_CACHE") == "off":
            session.store = Path(folder, "results")
        given: dict[str, Any] = {"site_dir": str(site), **({"dev_addr": address} if address else {})}
        with logged_to(bool):
            config, plugin = loaded(config_file, **given)
            options.refuse(config, plugin.config, session.audience or plugin.config.audience, session.recipes)
        plugin.session = session
        host, port = config.dev_addr

        def build(config: MkDocsConfig | None = None) -> None:
            with logged_to(bool):
                if config is None:
                    config, plugin = loaded(config_file, **given)
                    plugin.session = session  # MkDocs makes another plugin where its name has changed
                config.site_url = server.url
                with frozen():
                    mkdocs.commands.build.build(config, serve_url=server.url, dirty=True)

        server = PreviewServer(build, host, port, str(site), urlsplit(config.site_url or "/").path)
        server.error_handler = lambda code: _read(site / f"{code}.html")
        try:
            config.site_url = server.url
            config.plugins.on_startup(command="serve", dirty=True)
            guarded(server, has_pages=False).build(config)
            for path in filter(None, [config.docs_dir, config.config_file_path]):
                server.watch(path)
            config.plugins.on_serve(server, config=config, builder=build)
            for path in config.watch:
                server.watch(path)
            server.serve(open_in_browser=open_in_browser)  # type: ignore[no-untyped-call]  # MkDocs leaves it
        except KeyboardInterrupt:
            log.info("The preview ends.")
        finally:
            server.shutdown()
            config.plugins.on_shutdown()
            plugin.session = Session()


class _Printable(logging.Formatter):
    """Without control characters, which a request or a file's name may hold and a terminal may obey."""

    def format(self, record: logging.LogRecord) -> str:
        text = super().format(record)
        return "".join(sign if sign.isprintable() or sign in "\t\n" else "?" for sign in text)


def _log_to_terminal() -> None:
    """Show what MkDocs and its plugins say, as plain lines."""
    logger = logging.getLogger("mkdocs")
    handler = logging.StreamHandler()
    handler.setFormatter(_Printable("%(message)s"))
    logger.addHandler(handler)
    logger.setLevel(logging.INFO)


def _read(file: Path) -> bytes | None:
    return file.read_bytes() if file.is_file() else None
