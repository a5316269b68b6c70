"""Blends drawn at random, typed into Try a blend as a person would, and what that page says of them."""

import random
from typing import Any, NamedTuple

from playwright.sync_api import Locator, Page

from bowlbook.book.book import Book
from bowlbook.book.current import current, current_ids
from bowlbook.entries.facets import FACET_WORDS, FACETS, LEVELS
from bowlbook.entries.product import Additive, Developer, Lightener, Toner

Draft = dict[str, Any]
NAMES = (
    "Late harvest",
    "Écume & sel",
    "No: 3 (“soft”)",
    "Grey's #4",
    "100 % oat",
    "Blé – d'été",
    "null, void",
)
SENTENCES = (
    "Check every five minutes; rinse at the first warmth.",
    "Never: within two fingers of the scalp.",
    'The powder says "no heat", and so do we.',
    "- Not for a hurry",
    "Wisp, root & 50 % more {care} [always] #1",
    "Überall dünn auftragen",
    "It's kind\\slow",
    "~",
)
OBJECTED = (
    "The powder is $47.50 a tub.",
    "CAD 12 a head, or 12 EUR.",
    "It costs 39 euros, for 12 centimetres.",
    "39.00 for the blue one; 1.50 oz, 39.00 g and 2026.11.25 are none.",
    "Call 555 0123 4567 first.",
    "Ask mira@salon.example",
    "Ask Imre, or somebody of Harbour Salon Goods.",
    "Immeroth Imres Ottilies",
    "See ![the back](back.jpg)",
    "As in [painting](../painting), or [the maker](https://maker.example/)",
    "Nine digits 12 34 56 78 9, and 2026-11-25",
)
"""Texts that some check objects to, beside their like that none does."""
NOTES = (
    "**Why three to one.** It holds.",
    "First line.\n\n    code: yes\n\n- a list\n- of # two  ",
    "\n\n  Indented at first.\nThen not: at all.\n\n",
    "One.\r\nTwo.\tAnd a tab.",
)


class Shown(NamedTuple):
    """What the page shows of a bowl: what `bowlbook mix --json` gives, as far as the page has it."""

    pours: list[dict[str, str | None]]
    total: str
    peroxide: str
    error: str
    following: str
    cost: str


def _sentence(draw: random.Random) -> str:
    return draw.choice(OBJECTED if draw.random() < 0.08 else SENTENCES)


def _number(draw: random.Random) -> str:
    return draw.choice(["1", "2", "3", "1", "2", "1.5", "0.5", "4", "2.25", "7", "20"])


def _said(draw: random.Random, low: int, high: int) -> str:
    first = draw.randint(low, high)
    last = draw.randint(first, high)
    return str(first) if first == last else f"{first}-{last}"


def _heads(draw: random.Random, facets: list[str]) -> Draft:
    found: Draft = {}
    for name in sorted(facets, key=FACETS.index):
        if name in FACET_WORDS:
            words = FACET_WORDS[name]
            chosen = draw.sample(words, draw.randint(1, min(2, len(words))))
            found[name] = [word for word in words if word in chosen]
        else:
            found[name] = _said(draw, LEVELS.low, 9 if name == "lift" else LEVELS.high)
    return found


def drawn(draw: random.Random, book: Book, number: int) -> Draft:
    """A draft: mostly what somebody would try, and now and then what no check lets pass."""
    products = current(book.products).values()
    of_kind = {
        cls: [each for each in products if isinstance(each, cls)]
        for cls in (Lightener, Toner, Developer, Additive)
    }
    toning = draw.random() < 0.2
    bases = draw.sample(of_kind[Toner if toning else Lightener], draw.choice([1, 1, 2, 2, 3]))
    weak = [each for each in of_kind[Developer] if each.volume <= 20]
    developers = of_kind[Developer] if draw.random() < 0.2 else weak
    chosen = draw.sample(developers, draw.choice([1, 1, 2]))
    usual = str(bases[0].mixing_ratio.usual)
    ratio = f"1:{_number(draw)}" if draw.random() < 0.2 else usual
    draft: Draft = {"name": f"{draw.choice(NAMES)} {number}"}
    if draw.random() < 0.6:
        draft["summary"] = _sentence(draw)
    draft["toners" if toning else "lighteners"] = [
        {"product": each.id, "parts": _number(draw)} for each in bases
    ]
    draft["developer"] = {"ratio": ratio, "product": chosen[0].id}
    if chosen[1:]:
        draft["developer"]["also"] = [each.id for each in of_kind[Developer] if each in chosen[1:]]
    if draw.random() < 0.4:
        additive = draw.choice(of_kind[Additive])
        draft["additives"] = [
            {"product": additive.id, "ratio": draw.choice(["10:1", "20:1", "10:1", "1:8", "4:1"])}
        ]
    if draw.random() < 0.2:
        draft["batches"] = {"oz": draw.choice([["0.6"], ["1.2", "2.4"], ["3", "1"]]), "g": ["60", "120"]}
    if draw.random() < 0.5:
        draft["fresh_for"] = "45 minutes"
    some = ["natural_level", "lift", "texture", "tone", *draw.sample(FACETS, 2)]
    draft["suits"] = _heads(draw, list(set(draw.sample(some, draw.randint(1, 4)))))
    if draw.random() < 0.3:
        refusal: Draft = {"when": _heads(draw, draw.sample(FACETS, 1)), "because": _sentence(draw)}
        if draw.random() < 0.5:
            refusal["instead"] = draw.choice(current_ids(book.blends))
        draft["not_for"] = [refusal]
    if draw.random() < 0.9:
        draft["cautions"] = [_sentence(draw) for _ in range(draw.randint(1, 2))]
    if draw.random() < 0.6:
        draft["notes"] = draw.choice(NOTES)
    if draw.random() < 0.5:
        draft["reviewed"] = {"by": draw.choice(book.people)}
        if draw.random() < 0.5:
            draft["reviewed"]["change"] = _sentence(draw)
    return draft


def type_in(page: Page, draft: Draft) -> None:
    """Clear the page and type a draft, field by field."""
    page.locator("#try-new").click()
    _tap(page, "try-tones" if "toners" in draft else "try-lightens")
    for place, each in enumerate(draft.get("toners") or draft["lighteners"]):
        if place:
            page.locator("#try-add-base").click()
        row = page.locator("#try-bases > *").nth(place)
        row.locator("select").select_option(each["product"])
        row.locator("input").fill(each["parts"])
    page.locator("#try-developer").select_option(draft["developer"]["product"])
    for side, text in enumerate(draft["developer"]["ratio"].split(":")):
        page.locator("#try-ratio input").nth(side).fill(text)
    _open(page.locator("#try-also").locator(".."))
    for developer in draft["developer"].get("also", ()):
        _tap(page, f"try-also-{developer}")
    for place, each in enumerate(draft.get("additives", ())):
        page.locator("#try-add-additive").click()
        row = page.locator("#try-additives > *").nth(place)
        row.locator("select").select_option(each["product"])
        for side, text in enumerate(each["ratio"].split(":")):
            row.locator("input").nth(side).fill(text)
    _open(page.locator("#try-own"))
    for unit, sizes in draft.get("batches", {}).items():
        page.locator(f"#try-batches [data-unit={unit}]").fill(" ".join(sizes))
    _type_heads(page.locator("#try-suits"), draft["suits"])
    for place, each in enumerate(draft.get("not_for", ())):
        page.locator("#try-add-not-for").click()
        row = page.locator("#try-not-for > *").nth(place)
        _type_heads(row, each["when"])
        row.locator("[data-part=because]").fill(each["because"])
        row.locator("[data-part=instead]").select_option(each.get("instead", ""))
    texts = {
        "name": draft["name"],
        "summary": draft.get("summary", ""),
        "cautions": "\n".join(draft.get("cautions", ())),
        "notes": draft.get("notes", ""),
        "fresh": draft.get("fresh_for", "").partition(" ")[0],
        "by": draft.get("reviewed", {}).get("by", ""),
        "change": draft.get("reviewed", {}).get("change", ""),
    }
    for name, text in texts.items():
        if text:
            page.locator(f"#try-{name}").fill(text)


def _tap(page: Page, box_id: str) -> None:
    page.locator(f'label[for="{box_id}"]').click()


def _open(details: Locator) -> None:
    details.evaluate("each => { each.open = true; }")


def _type_heads(root: Locator, facets: Draft) -> None:
    _open(root.locator("details.bb-fold"))
    for name, value in facets.items():
        field = root.locator(f"[data-facet={name}]")
        if isinstance(value, str):
            low, _, high = value.partition("-")
            field.locator("[data-end=from]").select_option(low)
            field.locator("[data-end=to]").select_option(high or "")
        else:
            for word in value:
                field.locator("label").get_by_text(word, exact=True).click()


def shown_bowl(page: Page) -> Shown | None:
    """The bowl on the page; None where it shows none."""
    if not page.locator("#try-bowl table").count():
        return None
    rows = page.locator("#try-bowl tbody tr").evaluate_all(
        """all => all.map(row => ({weigh: row.querySelector('.bb-weigh').textContent,
          shows: row.querySelector('.bb-shows').textContent,
          exact: row.dataset.exact, cost: row.dataset.cost}))"""
    )
    facts = [
        page.locator(f"#try-bowl .bb-{name}").inner_text()
        for name in ("total", "peroxide", "error", "next", "cost")
    ]
    return Shown(rows, *facts)


def shown_findings(page: Page) -> list[tuple[str, str, str]]:
    """What the checks say on the page, as (code, severity, message)."""
    return [
        tuple(each)
        for each in page.locator("#try-says li").evaluate_all(
            """all => all.map(each => [each.dataset.code, each.className ? 'error' : 'warning',
              each.querySelector('a').textContent])"""
        )
    ]


def text_typed(page: Page) -> str:
    """The text of the draft in the form, also where the page does not show it for what stops it."""
    return str(
        page.evaluate(
            """async () => {
              const here = new URL(document.querySelector('script[src*="try.js"]').src);
              const { readForm } = await import(new URL('try_form.js', here));
              const { entryText } = await import(new URL('draft_text.js', here));
              const shelf = await (await fetch(document.getElementById('try').dataset.shelf)).json();
              return entryText(readForm().draft, shelf.schema);
            }"""
        )
    )
