"""The outline of an entry: as much of it as linking, and checks of the whole book, must know.

Cached beside the entry: after an edit most entries are known by their outlines alone, and never loaded.
"""

from datetime import date
from fractions import Fraction
from typing import Any, NamedTuple

from bowlbook.book.reference import references
from bowlbook.entries.facets import Facets
from bowlbook.reading.finding import Finding
from bowlbook.reading.place import Place

NOBODY = Facets()
"""What suits no head that could be named."""
ONCE = ("lighteners", "toners", "additives", "supplies", "for_each_learner", "developer")
"""Where naming the same entry twice makes no sense."""


class Outline(NamedTuple):
    """Plain values only.

    ``named``: each entry that it names, once, in order, as (kind, id, kinds of product that fit).
    ``twice``: whether it names one twice where that makes no sense. ``instead``: what its refusals name.
    ``product``: the kind of a product; ``price``: that of its pack; ``suppliers``: of all its packs.
    ``by``: the reviewer. ``retired``: whether it is out of use. ``kept``: whether it has a use of its own,
    also where no entry names it. ``name_at``: path, line, column and shown text of its name. ``reviewed_on``:
    the day of its review; ``retired_on``: the day on which it was retired.
    """

    named: tuple[tuple[str, str, tuple[str, ...]], ...]
    twice: bool
    formerly: tuple[str, ...]
    instead: tuple[str, ...]
    product: str
    price: Fraction | None
    suppliers: tuple[str, ...]
    name: str
    by: str
    retired: bool
    kept: bool
    name_at: tuple[str, int, int, str]
    reviewed_on: date | None = None
    retired_on: date | None = None

    def warning(self, message: str, mend: str) -> Finding:
        """A check's warning at the entry's name; the code is added by who runs the check."""
        path, line, column, excerpt = self.name_at
        return Finding(Place(path, line, column), "", message, mend, excerpt, "warning")


def outline_of(entry: Any) -> Outline:
    """The outline of an entry; of a partial one, what could be read of it."""
    found = list(references(entry))
    read = vars(entry)
    listed = [(each.loc[0], each.id) for each in found if each.loc[0] in ONCE]
    reviewed = read.get("reviewed")
    place: Place = entry.source.place_of(("name",))
    pack = vars(read["pack"]) if read.get("pack") is not None else {}
    packs = [pack, *(vars(each) for each in read.get("other_packs", ()))]
    refused = [vars(each).get("instead") for each in read.get("not_for", ())]
    return Outline(
        named=tuple(dict.fromkeys((each.ref.to, each.id, each.ref.kinds) for each in found)),
        twice=len(set(listed)) < len(listed),
        formerly=tuple(read.get("formerly", ())),
        instead=tuple(each for each in refused if each is not None),
        product=read.get("kind", ""),
        price=pack.get("price"),
        suppliers=tuple(each["supplier"] for each in packs if each.get("supplier")),
        name=str(read.get("name", "")),
        by=vars(reviewed).get("by", "") if reviewed is not None else "",
        retired=read.get("retired") is not None,
        # What a partial entry says may be missing here: `unused-entry` asks in whole books alone.
        kept=read.get("kept_for") is not None or any(vars(read.get("suits", NOBODY)).values()),
        name_at=(*place, entry.source.excerpt(place.line)),
        reviewed_on=_day_of(read.get("reviewed")),
        retired_on=_day_of(read.get("retired")),
    )


def _day_of(stamp: Any) -> date | None:
    """The day of a stamp; None without one, or where it could not be read."""
    return None if stamp is None else vars(stamp).get("on")
