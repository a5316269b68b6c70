"""What to use when a developer has run out: two others in its place, weighed."""

from collections.abc import Iterator
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.facets import PLACEMENTS
from bowlbook.entries.ladder import UNITS
from bowlbook.entries.product import Developer
from bowlbook.figures.bowl import Bowl, bowls_of, developers_of
from bowlbook.figures.developer import StandIn, stand_in, stand_in_bowl, stand_in_for
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.reading.amount import plain
from bowlbook.wording.listing import both


class StandInRow(NamedTuple):
    """One size: (scale shows, weigh) of the weaker and of the stronger, and a remark on it."""

    size: str
    pours: tuple[tuple[str, str], ...]
    remark: str | None


class StandInTable(NamedTuple):
    """Two developers in place of one, at each size of a blend; without rows there is no such pair."""

    name: str
    weaker: str
    stronger: str
    rows: tuple[StandInRow, ...]


def stand_in_tables(book: Book, blend: Blend) -> list[StandInTable]:
    """For each developer of a blend the two that may replace it, weighed for every size."""
    tables = []
    for developer in developers_of(book, blend):
        found = stand_in_for(book, blend, developer)
        if found is not None:
            rows = tuple(_row(found, bowl) for bowl in bowls_of(book, blend, developer))
            tables.append(StandInTable(developer.name, found.weaker.name, found.stronger.name, rows))
        elif stand_in(book, developer) is not None:
            tables.append(StandInTable(developer.name, "", "", ()))
    return tables


def _row(found: StandIn, bowl: Bowl) -> StandInRow:
    places = decimals_of(bowl.step)
    size = f"{fixed(bowl.batch, places)} {bowl.unit}"
    weighed = stand_in_bowl(found, bowl)
    if weighed is None:
        return StandInRow(size, (), "too little for this scale")
    pours = tuple(
        (fixed(shows, places), fixed(weigh, places))
        for shows, weigh in zip(weighed.scale_shows, weighed.weigh, strict=True)
    )
    off = f"{fixed(weighed.error * 100, 1)} % off" if weighed.error > bowl.tolerance else None
    return StandInRow(size, pours, off)


def stand_in_sentences(book: Book, developer: Developer) -> list[str]:
    """Which two developers may replace one, and where: a sentence for each pair."""
    places: dict[tuple[str, str], list[str]] = {}
    pairs: dict[tuple[str, str], StandIn] = {}
    for placement in developer.placement or PLACEMENTS:
        found = stand_in(book, developer, [placement])
        if found is not None:
            pair = (found.weaker.id, found.stronger.id)
            pairs[pair] = found
            places.setdefault(pair, []).append(placement)
    return [f"For {both(places[pair])} use: {_recipe(book, found)}" for pair, found in pairs.items()]


def _recipe(book: Book, found: StandIn) -> str:
    """The parts, and what to weigh for the house's largest size in each unit that weighs them."""
    pairs = ((found.parts.weaker, found.weaker), (found.parts.stronger, found.stronger))
    parts = " to ".join(f"{many} {'part' if many == 1 else 'parts'} {each.name}" for many, each in pairs)
    return "; ".join([f"{parts}, by weight", *_weighed(book, found)]) + "."


def _weighed(book: Book, found: StandIn) -> Iterator[str]:
    for unit in UNITS:
        sizes, step = book.house.batches.of(unit), book.house.scale_step.of(unit)
        readings = found.readings(max(sizes), step) if sizes and step is not None else None
        if readings is not None and step is not None:
            weaker, stronger = (fixed(reading.weigh, decimals_of(step)) for reading in readings)
            yield f"for {plain(max(sizes))} {unit} weigh {weaker} and {stronger} {unit}"
