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


@pytest.mark.parametrize("audience", ["team", "public"])
def test_a_shared_product_too(book: SmallBook, audience: str) -> None:
    shelf = book.root.parent / "products"
    shelf.mkdir()
    plugin, server = BowlbookPlugin(), Server()
    plugin.load_config({"recipes": str(book.root), "audience": audience})
    plugin.on_serve(server, config=MkDocsConfig(), builder=None)
    assert server.watched == [book.root]
    book.add(HOUSE_FILE, "products_from: ../products\n")
    plugin.on_serve(server, config=MkDocsConfig(), builder=None)
    assert server.watched[1:] == [book.root, shelf]
