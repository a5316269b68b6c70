"""Which product a row of a list is about: by its id, its name, or its supplier's number for it."""

from collections.abc import Mapping

from bowlbook.book.current import current
from bowlbook.entries.product import Product, packs_of
from bowlbook.reading.bare_name import bare_name
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.refusal import Refusal
from bowlbook.reading.source import Loc


def named_product(products: Mapping[str, Product], text: str, article: str = "", supplier: str = "") -> str:
    """The id of the one product that is meant. Raises `Refusal` where it is none, or may be several.

    ``text``: an id, a former id, a name or another name, without regard to case; may be left out where
    ``article``, the supplier's number, is given; of articles only those of ``supplier`` fit, where one is
    given. Of two that a name or a number fits, none is taken.
    """
    by_text = _by_text(products, text) if text else None
    by_article = _by_article(products, article, supplier) if article else None
    found = by_text or by_article
    if found is None:
        raise Refusal("unknown-id", "No product is named here.", "Write its id, its name, or its article.")
    if by_text and by_article and by_text != by_article:
        message = f'"{text[:60]}" is the product "{by_text}", and article {article[:40]} is "{by_article}".'
        raise Refusal("bad-price-list", message, "Write the one that is meant.")
    return found


def pack_meant(product: Product, article: str = "", supplier: str = "") -> Loc:
    """The place of the pack that a row is about: the supplier's, that of the article, else the first.

    Also where no pack is written yet. Raises `Refusal` where all packs are other suppliers'.
    """
    packs = packs_of(product)
    if supplier:
        fits = [loc for loc, pack in packs if bare_name(pack.supplier or "") == bare_name(supplier)]
        open_ = [loc for loc, pack in packs if not pack.supplier]
        if packs and not fits and not open_:
            message = f'The house buys "{product.id}" from another supplier than {supplier[:60]}.'
            mend = "Take the row out; or write that supplier's pack under other_packs in its file first."
            raise Refusal("bad-price-list", message, mend)
        return (fits or open_ or [("pack",)])[0]
    wanted = bare_name(article)
    return next((loc for loc, pack in packs if wanted and bare_name(pack.article or "") == wanted), ("pack",))


def _by_text(products: Mapping[str, Product], text: str) -> str:
    if text in products:
        return text
    wanted = bare_name(text)
    fits = [
        product.id
        for product in current(products).values()
        if text in product.formerly or wanted in map(bare_name, (product.name, *product.other_names))
    ]
    mend = did_you_mean(text, products) or "Use the product's id, the name of its file; or its name."
    return _one(fits, f'There is no product "{text[:60]}".', f'"{text[:60]}" may be', mend)


def _by_article(products: Mapping[str, Product], article: str, supplier: str) -> str | None:
    fits = [
        product.id
        for product in current(products).values()
        if any(
            pack.article is not None
            and bare_name(pack.article) == bare_name(article)
            and (not supplier or not pack.supplier or bare_name(pack.supplier) == bare_name(supplier))
            for _, pack in packs_of(product)
        )
    ]
    none = f"No pack in the book has the article {article[:40]}."
    return _one(fits, none, f"Article {article[:40]} may be", "Write article: in the product's pack.")


def _one(fits: list[str], none: str, several: str, mend: str) -> str:
    if not fits:
        raise Refusal("unknown-id", none, mend)
    if len(fits) > 1:
        message = f"{several} {' or '.join(fits)}."
        raise Refusal("unknown-id", message, "Write the id of the one that is meant.")
    return fits[0]
