"""What is mixed, or a limit, has changed since the last release, and the review stamp has not.

Why: a ratio is mistyped as easily as it is changed; the stamp says that somebody tried it.
Source: none needed; the last release is the newest tag of the git repository that the book is in. Without one
nothing is said.
Wrong: `developer: {ratio: 1:1, …}`, which was `1:2` in the last release, under the `reviewed` of then.
Right: try it, then write `reviewed: {on: 2026-10-02, by: …, change: …}`; or take the change back.
"""

from collections.abc import Iterator
from datetime import date
from typing import Any

from bowlbook.book.book import Book
from bowlbook.book.released import predecessor
from bowlbook.figures.changed_fields import Renames, Terms, changed_fields
from bowlbook.figures.fact import Fact
from bowlbook.reading.finding import Finding

WATCHED = {
    "blend": ("lighteners", "toners", "developer", "additives"),
    "technique": ("bowls", "processing"),
    "product": (
        "mixing_ratio",
        "dose",
        "volume",
        "peroxide",
        "developer_limit",
        "longest_on_hair",
        "longest_on_scalp",
    ),
}
"""By kind the fields that say what is mixed and how far it may go."""
OF_PARTS = {"bowls": ("blend", "developer"), "processing": ("minutes",)}
"""Of a field with parts: those that count; left out, all of them."""


def find(book: Book, today: date) -> Iterator[Finding]:
    """Warnings at the field that changed."""
    if book.released is None:
        return
    renamed: Renames = {
        (kind, former, entry_id)
        for (kind, entry_id), outline in book.outlines().items()
        for former in outline.formerly
    }
    for kind, names in WATCHED.items():
        keys = {entry_id for by, entry_id in book.released.entries if by == kind}
        for (of, entry_id), outline in book.outlines().items():
            if of != kind or outline.retired or not keys & {entry_id, *outline.formerly}:
                continue
            entry: Any = book.of_kind(kind)[entry_id]
            before: Any = predecessor(book, kind, entry)
            if before is None or _is_stamped(before, entry):
                continue
            facts = list(changed_fields(before, entry, Terms(renamed, 2)))
            for name in names:
                changed = "; ".join(_sentence(fact) for fact in facts if _is_about(fact, name))
                if changed:
                    message = f"Changed since {book.released.tag}, and the review is of then: {changed}."
                    mend = "Try it, then write the day under reviewed; or take the change back."
                    yield entry.source.objection((name,), message, mend, severity="warning")


def _is_stamped(before: Any, entry: Any) -> bool:
    """Whether an entry was reviewed after it changed, as far as its stamps tell."""
    then, now = before.reviewed, entry.reviewed
    return now is not None and (then is None or (now != then and now.on >= then.on))


def _is_about(fact: Fact, name: str) -> bool:
    """Whether a difference is one of this field, and of one of its parts that count."""
    first, _, rest = fact.what.partition(", ")
    if first.rstrip(" 0123456789") != name.replace("_", " "):
        return False
    parts = OF_PARTS.get(name)
    return parts is None or not rest or rest in parts


def _sentence(fact: Fact) -> str:
    if fact.before is None:
        return f"{fact.what} new, {fact.after}"
    return f"{fact.what} {fact.before} before" + ("" if fact.after is None else f", {fact.after} now")
