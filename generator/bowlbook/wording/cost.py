"""What a cost leaves out."""

from collections.abc import Iterable

from bowlbook.entries.blend import Blend
from bowlbook.entries.product import Product
from bowlbook.wording.listing import both


def without_phrase(products: Iterable[Product], unweighed: Iterable[Blend] = ()) -> str:
    """What a cost leaves out, to follow the amount: `` without A and B, which have no price``; else empty."""
    priceless = [each.name for each in products]
    bowls = list(dict.fromkeys(f"the bowl of {each.name}" for each in unweighed))
    phrases = []
    if priceless:
        phrases.append(f"{both(priceless)}, which {'has' if len(priceless) == 1 else 'have'} no price")
    if bowls:
        phrases.append(f"{both(bowls)}, which cannot be weighed out")
    return f" without {', and without '.join(phrases)}" if phrases else ""
