"""A whole book: its house, its entries by kind and id, and which entries name each of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING, TypeVar

from bowlbook.book.folder import FOLDER_OF
from bowlbook.book.lazy_entries import outlines_of
from bowlbook.entries.partial import Unread
from bowlbook.entries.product import Additive, Developer, Lightener, Product, Supply, Toner

if TYPE_CHECKING:  # a bowl is mixed without ever reading a class's notes
    from bowlbook.book.long_texts import Stamps
    from bowlbook.book.outline import Outline
    from bowlbook.book.released import Released
    from bowlbook.entries.blend import Blend
    from bowlbook.entries.class_notes import ClassNotes
    from bowlbook.entries.entry import Entry
    from bowlbook.entries.house import House
    from bowlbook.entries.situation import Situation
    from bowlbook.entries.technique import Technique
    from bowlbook.entries.trouble import Trouble
    from bowlbook.reading.picture import SeenPicture

P = TypeVar("P", bound=Product)
READ_WHOLE = (Lightener, Developer, Toner, Additive, Supply)
"""The classes of products whose kind could be read."""
EntryKey = tuple[str, str]
"""Kind and id."""
UsedBy = dict[EntryKey, tuple[EntryKey, ...]]
"""The entries that name each entry."""
ORDER = ("blend", "technique", "situation", "product", "class", "trouble")
"""The kinds of entries but the house, in the order in which a book is gone through."""


@dataclass(frozen=True)
class Book:
    """Entries by id, each mapping in the order of ids; an entry may be loaded when it is asked for.

    ``used_by`` says who names an entry.

    ``shared``: every shared product by id, also where one of the book's own stands in its place.
    ``pictures``: those of the folder of pictures that can be read, by their files' names.
    ``whole``: whether every entry of the folder could be read and linked. ``unread``: the entries whose files
    are there and that could not be read, or use one that could not. ``stamps``: the digests of the file that
    each entry was read from; a book with other entries than its files have must be made without.
    ``released``: what differs from the last release; known only where the book is checked.
    """

    house: House
    products: Mapping[str, Product] = field(default_factory=dict)
    blends: Mapping[str, Blend] = field(default_factory=dict)
    techniques: Mapping[str, Technique] = field(default_factory=dict)
    situations: Mapping[str, Situation] = field(default_factory=dict)
    classes: Mapping[str, ClassNotes] = field(default_factory=dict)
    troubles: Mapping[str, Trouble] = field(default_factory=dict)
    shared: Mapping[str, Product] = field(default_factory=dict)
    pictures: Mapping[str, SeenPicture] = field(default_factory=dict)
    used_by: UsedBy = field(default_factory=dict)
    whole: bool = True
    unread: frozenset[EntryKey] = frozenset()
    stamps: dict[EntryKey, Stamps] = field(default_factory=dict, compare=False, repr=False)
    released: Released | None = field(default=None, compare=False, repr=False)

    def of_kind(self, kind: str) -> Mapping[str, Entry]:
        """The entries of a kind, by id."""
        if kind == "house":
            return {"house": self.house}
        found: Mapping[str, Entry] = getattr(self, FOLDER_OF[kind])
        return found

    @cached_property
    def prices(self) -> tuple[Fraction, ...]:
        """Every price of a pack, once, the lowest first."""
        outlines = outlines_of(self.products).values()
        return tuple(sorted({each.price for each in outlines if each.price is not None}))

    @cached_property
    def people(self) -> tuple[str, ...]:
        """Every person or firm named in a review stamp or a pack: reviewers and suppliers, once, in order."""
        outlines = self.outlines().values()
        return tuple(sorted({name for each in outlines for name in (each.by, *each.suppliers) if name}))

    @cached_property
    def retired(self) -> tuple[EntryKey, ...]:
        """The retired entries, by kind and id, in order."""
        return tuple([key for key, outline in self.outlines().items() if outline.retired])

    @property
    def priced(self) -> bool:
        """Whether any product has a price: without one nothing is said of costs."""
        return bool(self.prices)

    def entries(self) -> list[tuple[str, Entry]]:
        """Every entry but the house with its kind, by kind and id."""
        return [(kind, entry) for kind in ORDER for entry in self.of_kind(kind).values()]

    def outlines(self) -> dict[EntryKey, Outline]:
        """The outline of every entry but the house, by kind and id, in the order of `entries`."""
        return {
            (kind, entry_id): outline
            for kind in ORDER
            for entry_id, outline in outlines_of(self.of_kind(kind)).items()
        }

    def _read_product(self, entry_id: str) -> Product:
        """The product of this id. Raises `Unread` where its kind could not be read."""
        found = self.products[entry_id]
        if not isinstance(found, READ_WHOLE):
            raise Unread
        return found

    def _product(self, cls: type[P], entry_id: str) -> P:
        found = self.products[entry_id]
        if isinstance(found, cls):
            return found
        self._read_product(entry_id)
        raise TypeError(f"{entry_id} is not a {cls.__name__}")

    def lightener(self, entry_id: str) -> Lightener:
        """The lightener of this id. Linking has made sure that it is one; KeyError otherwise."""
        return self._product(Lightener, entry_id)

    def base(self, entry_id: str) -> Lightener | Toner:
        """What shares a batch by parts: the lightener or toner of this id."""
        found = self._read_product(entry_id)
        if not isinstance(found, Lightener | Toner):
            raise TypeError(f"{entry_id} is neither lightener nor toner")
        return found

    def developer(self, entry_id: str) -> Developer:
        """The developer of this id."""
        return self._product(Developer, entry_id)

    def additive(self, entry_id: str) -> Additive | Toner:
        """The additive or toner of this id."""
        found = self._read_product(entry_id)
        if not isinstance(found, Additive | Toner):
            raise TypeError(f"{entry_id} is neither additive nor toner")
        return found
