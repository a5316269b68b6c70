"""What the preview watches: the book, and the shelf that it takes products from."""

from contextlib import suppress
from pathlib import Path

import pytest
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer

from bowlbook.site.plugin import BowlbookPlugin
from bowlbook.site.preview import Preview
from bowlbook.site.session import Session
from checks.small_book import HOUSE_FILE, SmallBook


class Server(LiveReloadServer):
    """The preview's server, which only records what it is to watch."""

    def __init__(self) -> None:
        super().__init__(bool, "127.0.0.1", 0, ".")
        self.server_close()
        self.watched: list[Path] = []

    def watch(self, path: str, func: None = None, *, recursive: bool = True) -> None:
        self.watched.append(Path(path).resolve())

    def unwatch(self, path: str) -> None:
        self.watched.remove(Path(path).resolve())


@pytest.mark.parametrize("audience", ["team", "public"])
def test_a_shared_product_too(book: SmallBook, audience: str) -> None:
    """Also one whose folder the house names while the preview runs."""
    shelf, docs = book.root.parent / "products", book.root.parent / "docs"
    shelf.mkdir()
    docs.mkdir()
    plugin, server = BowlbookPlugin(), Server()
    plugin.load_config({"recipes": str(book.root), "audience": audience})
    config = MkDocsConfig()
    config.load_dict({"site_name": "A book", "docs_dir": str(docs)})
    assert config.validate()[0] == []
    server.watch(config.docs_dir)
    plugin.on_serve(server, config=config, builder=None)
    assert isinstance(server.get_app(), Preview)  # under plain MkDocs too
    assert server.watched == [docs, book.root]
    book.add(HOUSE_FILE, "products_from: ../products\n")
    plugin.watch_shelf(config)  # as before each reload
    assert server.watched == [docs, book.root, shelf]


@pytest.mark.parametrize("what", ["docs/page.md", "recipes/house.yml", "products/cream.yml", "mkdocs.yml"])
def test_an_edit_during_the_first_build(book: SmallBook, what: str) -> None:
    """Nothing is watched yet, and the build may have read the file: it is noticed when that has ended."""
    top = book.root.parent
    for name in ("docs", "products"):
        (top / name).mkdir()
        (top / name / "not-read.txt").touch()
    (top / "docs" / "page.md").write_text("# A page\n", encoding="utf-8")
    (top / "mkdocs.yml").write_text("site_name: A book\nplugins: [bowlbook]\n", encoding="utf-8")
    book.add(HOUSE_FILE, "products_from: ../products\n")
    config = load_config(str(top / "mkdocs.yml"))
    config.plugins["bowlbook"].session = Session(serving=True)
    server = LiveReloadServer(bool, "127.0.0.1", 0, str(top))
    server.watch(config.docs_dir)
    server.watch(config.config_file_path)
    with suppress(PluginError):  # the shelf holds a file that does not belong there, and the build would stop
        config.plugins.on_config(config)
    with (top / what).open("a", encoding="utf-8") as file:
        file.write("# More.\n")
    config.plugins.on_serve(server, config=config, builder=bool)
    assert server._want_rebuild
    server.observer.stop()
    server.server_close()
