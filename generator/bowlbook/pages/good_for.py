"""The heads that a blend or a technique is good for and not for, as its page shows them."""

from typing import Any

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.technique import Technique
from bowlbook.figures.head import head_of
from bowlbook.pages.facet_value import facet_links
from bowlbook.pages.link_list import link_to
from bowlbook.pages.strip import strip_of
from bowlbook.wording.facet import facet_sentence
from bowlbook.wording.reason import pigment_sentences


def good_for(book: Book, kind: str, recipe: Blend | Technique, start: str) -> dict[str, Any]:
    """What the macro ``heads`` and the strip of levels take, for the page at ``start``.

    ``good_for`` and ``not_for`` are the folds in one line; ``suits`` and ``refusals`` what is in them:
    of each refusal the heads, why, and a link to what to take instead.
    """
    head = head_of(recipe.suits)
    refusals = []
    for each in recipe.not_for:
        instead = link_to(kind, book.of_kind(kind)[each.instead], start) if each.instead else None
        refusals.append((facet_sentence(each.when) or "any head", each.because, instead))
    return {
        "suits": facet_links(head, start),
        "levels": strip_of(recipe.suits),
        "good_for": facet_sentence(recipe.suits),
        "pigment": pigment_sentences(head),
        "refusals": refusals,
        "not_for": "; ".join(heads for heads, _, _ in refusals),
    }
