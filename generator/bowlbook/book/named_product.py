"""Which product a row of a list is about: by its id, its name, or its supplier's number for it."""

import unicodedata
from collections.abc import Iterable, Mapping

from bowlbook.book.current import current
from bowlbook.entries.product import Product
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.refusal import Refusal


def named_product(products: Mapping[str, Product], text: str, article: str = "", supplier: str = "") -> str:
    """The id of the one product that is meant. Raises `Refusal` where it is none, or may be several.

    ``text``: an id, a former id, a name or another name, without regard to case; may be left out where
    ``article``, the supplier's number, is given. A ``supplier`` must be the one that the product is bought
    from. Of two that a name or a number fits, none is taken.
    """
    by_text = _by_text(products, text) if text else None
    by_article = _by_article(products, article, supplier) if article else None
    if by_text is None and by_article is None:
        raise Refusal("unknown-id", "No product is named here.", "Write its id, its name, or its article.")
    found = by_text or by_article
    assert found is not None
    pack = products[found].pack
    if by_article is not None and by_text not in (None, by_article):
        raise Refusal(
            "bad-price-list",
            f'"{text[:60]}" is the product "{by_text}", and article {article[:40]} is "{by_article}".',
            "Write the one that is meant.",
        )
    if supplier and pack is not None and pack.supplier and _bare(pack.supplier) != _bare(supplier):
        raise Refusal(
            "bad-price-list",
            f'The house buys "{found}" from another supplier than {supplier[:60]}.',
            "Take the row out; or change supplier and article in the product's own file first.",
        )
    return found


def _by_text(products: Mapping[str, Product], text: str) -> str:
    if text in products:
        return text
    wanted = _bare(text)
    fits = [
        product.id
        for product in current(products).values()
        if text in product.formerly or wanted in map(_bare, (product.name, *product.other_names))
    ]
    mend = did_you_mean(text, products) or "Use the product's id, the name of its file; or its name."
    return _one(fits, f'There is no product "{text[:60]}".', f'"{text[:60]}" may be', mend)


def _by_article(products: Mapping[str, Product], article: str, supplier: str) -> str | None:
    fits = [
        product.id
        for product in current(products).values()
        if product.pack is not None
        and product.pack.article is not None
        and _bare(product.pack.article) == _bare(article)
        and (not supplier or not product.pack.supplier or _bare(product.pack.supplier) == _bare(supplier))
    ]
    none = f"No pack in the book has the article {article[:40]}."
    return _one(fits, none, f"Article {article[:40]} may be", "Write article: in the product's pack.")


def _one(fits: Iterable[str], none: str, several: str, mend: str) -> str:
    ids = list(fits)
    if not ids:
        raise Refusal("unknown-id", none, mend)
    if len(ids) > 1:
        raise Refusal(
            "unknown-id", f"{several} {' or '.join(ids)}.", "Write the id of the one that is meant."
        )
    return ids[0]


def _bare(text: str) -> str:
    """A name as it is compared: without regard to case, accents' form and the width of spaces."""
    return " ".join(unicodedata.normalize("NFKC", text).casefold().split())
