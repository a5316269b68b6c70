"""What the preview watches: the book, and the shelf that it takes products from."""

from pathlib import Path

import pytest
from checks.small_book import HOUSE_FILE, SmallBook
from mkdocs.config.defaults import MkDocsConfig

from generator.site.plugin import BowlbookPlugin


class Server:
    """Stands for the preview's server, and keeps what it is told to watch."""

    def __init__(self) -> None:
        self.watched: list[Path] = []

    def watch(self, folder: str) -> None:
        self.watched.append(Path(folder).resolve())

    def unwatch(self, folder: str) -> None:
        self.watched.remove(Path(folder).resolve())


@pytest.mark.parametrize("audience", ["team", "public"])
def test_a_shared_product_too(book: SmallBook, audience: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Also one whose folder the house names while the preview runs."""
    shelf, docs = book.root.parent / "products", book.root.parent / "docs"
    shelf.mkdir()
    docs.mkdir()
    monkeypatch.setattr(BowlbookPlugin, "server", None)
    plugin, server = BowlbookPlugin(), Server()
    plugin.load_config({"recipes": str(book.root), "audience": audience})
    config = MkDocsConfig()
    config.load_dict({"site_name": "A book", "docs_dir": str(docs)})
    assert config.validate()[0] == []
    server.watch(config.docs_dir)
    plugin.on_serve(server, config=config, builder=None)
    assert server.watched == [docs, book.root]
    book.add(HOUSE_FILE, "products_from: ../products\n")
    plugin.watch_shelf(config)  # as before each reload
    assert server.watched == [docs, book.root, shelf]
