"""Differences of two books reckoned a second time: ``bowlbook diff`` and ``bowlbook prices``.

Rules: "What changed at the bench" and "New prices" in pages/manual/commands.md.
"""

from typing import Any

from tests.second_reckoning.books import Book, Entry
from tests.second_reckoning.fact import Fact, blend_facts, class_facts, technique_facts
from tests.second_reckoning.field import changed_fields

ORDER = ("house", "blends", "techniques", "situations", "products", "classes")
SINGULAR = {"blends": "blend", "techniques": "technique", "situations": "situation", "products": "product"}
SINGULAR |= {"house": "house", "classes": "class"}
FIGURES = {"blends": blend_facts, "techniques": technique_facts, "classes": class_facts}


def of_money(fact: Fact) -> bool:
    """Whether a fact is about costs, prices, packs or their days only."""
    return fact[0].startswith(("cost ", "pack"))


def uses(entry: Entry) -> set[str]:
    """Every text of an entry: where one is an id, the entry uses that."""
    found: set[str] = set()
    left: list[Any] = [entry]
    while left:
        value = left.pop()
        if isinstance(value, dict):
            left += value.values()
        elif isinstance(value, list):
            left += value
        else:
            found.add(value)
    return found


def users(book: Book, idents: set[str]) -> set[tuple[str, str]]:
    """Techniques, situations and classes that use any of these, directly or through others."""
    found: set[tuple[str, str]] = set()
    reached = set(idents)
    for kind in ("blends", "techniques", "classes", "situations"):
        for ident, entry in book[kind].items():
            if ident not in idents and reached & uses(entry):
                reached.add(ident)
                found |= {(SINGULAR[kind], ident)} if kind != "blends" else set()
    return found


def follow(old: Book, new: Book) -> tuple[Book, dict[str, str]]:
    """The old book with the new ids of its blends, and the former id of each."""
    former = {ident: entry["formerly"][0] for ident, entry in new["blends"].items() if "formerly" in entry}
    ids = {was: ident for ident, was in former.items() if was in old["blends"]}

    def renamed(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: renamed(each) for key, each in value.items()}
        if isinstance(value, list):
            return [renamed(each) for each in value]
        return ids.get(value, value)

    followed: Book = renamed(old)
    followed["blends"] = {ids.get(ident, ident): entry for ident, entry in followed["blends"].items()}
    return followed, former


def differences(old: Book, new: Book) -> list[dict[str, Any]]:
    """Every entry that differs, in the order of `bowlbook diff`."""
    found = []
    old, former = follow(old, new)
    for kind in ORDER:
        for ident, entry in sorted(new[kind].items()):
            if ident not in old[kind]:
                found.append(answer(new, kind, ident, "new", []))
                continue
            was = former.get(ident) if kind == "blends" else None
            facts: list[Fact] = [("id", was, ident)] if was else []
            facts += changed_fields(kind, old[kind][ident], entry)
            facts += FIGURES[kind](old, new, ident) if kind in FIGURES else []
            if facts:
                found.append(answer(new, kind, ident, "changed", facts) | {"was": was})
    for kind in ORDER:
        found += [
            answer(old, kind, ident, "gone", []) for ident in sorted(old[kind]) if ident not in new[kind]
        ]
    house = [each for each in found if each["kind"] == "house"]
    for each in house:
        each["known_by"] = known_by_house(new, each, found)
    return found


def answer(book: Book, kind: str, ident: str, state: str, facts: list[Fact]) -> dict[str, Any]:
    """An entry that differs, as `bowlbook diff` gives it."""
    at_the_scale = not facts or not all(of_money(fact) for fact in facts)
    known = users(book, {ident}) if at_the_scale and kind != "house" else set()
    return {
        "kind": SINGULAR[kind],
        "id": ident,
        "name": book[kind][ident].get("name") or book[kind][ident]["title"],
        "state": state,
        "facts": [{"what": what, "before": before, "after": after} for what, before, after in facts],
        "known_by": [{"kind": each, "id": name} for each, name in sorted(known)],
    }


BENCH = ("batches", "scale step", "rounding tolerance", "hair amounts", "waste allowance", "any batch")
FIGURE = (
    "batch of",
    "weigh for",
    "volume for",
    "scale shows for",
    "peroxide in",
    "rounding at",
    "mix for",
    "kit",
)


def on_a_scalp(book: Book) -> set[str]:
    """Techniques on the scalp, the blends in their bowls, and blends that suit a scalp."""
    techniques = {ident for ident, entry in book["techniques"].items() if entry["placement"] == "on-scalp"}
    bowls = {bowl["blend"] for ident in techniques for bowl in book["techniques"][ident]["bowls"]}
    blends = {
        ident for ident, entry in book["blends"].items() if "on-scalp" in entry["suits"].get("placement", [])
    }
    return techniques | bowls | blends


def known_by_house(book: Book, house: dict[str, Any], found: list[dict[str, Any]]) -> list[dict[str, str]]:
    """Who should know of a change in house.yml: by the table of the documents, and what uses those."""
    concerned = set()
    if any(fact["what"].startswith(BENCH) for fact in house["facts"]):
        figures = [each for each in found if any(fact["what"].startswith(FIGURE) for fact in each["facts"])]
        concerned |= {(each["kind"], each["id"]) for each in figures if each["kind"] != "house"}
    if any(fact["what"] == "on scalp developer limit" for fact in house["facts"]):
        kinds = {ident: SINGULAR[kind] for kind in ("blends", "techniques") for ident in book[kind]}
        concerned |= {(kinds[ident], ident) for ident in on_a_scalp(book)}
    known = concerned | users(book, {ident for _, ident in concerned})
    return [{"kind": kind, "id": ident} for kind, ident in sorted(known)]
