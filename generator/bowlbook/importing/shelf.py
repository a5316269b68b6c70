"""The products that a table names: found in the book, or begun with gaps; a strength finds its developer."""

import re
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from fractions import Fraction

from bowlbook.entries.entry_id import id_from
from bowlbook.entries.gap import GAP
from bowlbook.entries.product import Developer, Product
from bowlbook.entries.words import read_name
from bowlbook.importing.number import Unclear, decimal_text, number_in
from bowlbook.importing.words import meanings, simplified, words
from bowlbook.reading.nearest import nearest
from bowlbook.reading.refusal import Refusal

STRENGTH = re.compile(r"([0-9]+(?:[.,][0-9]+)?)\s*(%|[^\W\d_]+)")
SEVERAL = re.compile(r"[+/&;,:\n]")

GAPS: dict[str, dict[str, object]] = {
    "lightener": {
        **dict.fromkeys(("form", "strength", "lifts"), GAP),
        "mixing_ratio": {"usual": GAP},
        **dict.fromkeys(("placement", "developer_limit"), GAP),
    },
    "developer": {"volume": GAP},
    "toner": {**dict.fromkeys(("form", "tone"), GAP), "mixing_ratio": {"usual": GAP}, "developer_limit": GAP},
    "additive": {"does": GAP},
    "supply": {},
}
"""What must be said of a product before anybody mixes with it, as ``bowlbook new`` leaves it open."""


class Shelf:
    """Products by what people call them. ``begun``: new ones, with the row that named them first."""

    def __init__(self, products: Mapping[str, Product], taken: Iterable[str]) -> None:
        self.begun: dict[str, tuple[dict[str, object], int]] = {}
        self.taken = set(taken)
        self.kinds: dict[str, str] = {}
        self.ids: dict[str, set[str]] = {}
        self.shown: dict[str, str] = {}
        self.developers = [each for each in products.values() if isinstance(each, Developer)]
        for product in products.values():
            self.add(product.id, product.kind, (product.id, product.name, *product.other_names))

    def add(self, entry_id: str, kind: str, names: Iterable[str]) -> None:
        """Let a product be found by its names."""
        self.kinds[entry_id] = kind
        for name in names:
            self.ids.setdefault(simplified(name), set()).add(entry_id)
            self.shown[simplified(name)] = name

    def known(self, text: str, kinds: tuple[str, ...]) -> str | None:
        """The id of the one product of these kinds that is called so; None where there is none.

        Raises `Unclear` where it is of another kind, or there are several.
        """
        found = self.ids.get(simplified(text), set())
        fit = sorted(each for each in found if self.kinds[each] in kinds)
        if len(fit) > 1:
            raise Unclear(f"Several products are called so: {', '.join(fit)}.", "Write the id of one.")
        if found and not fit:
            kind = self.kinds[min(found)]
            raise Unclear(f"The book has it as a {kind}, not as a {' or '.join(kinds)}.")
        return fit[0] if fit else None

    def known_quietly(self, text: str, kinds: tuple[str, ...]) -> bool:
        """Whether a text is certainly the name of one product of these kinds."""
        with suppress(Unclear):
            return self.known(text, kinds) is not None
        return False

    def product(self, text: str, kinds: tuple[str, ...], row: int) -> str:
        """The id of a product by its name; an unknown one is begun. Raises `Unclear`."""
        found = self.known(text, kinds)
        if found is not None:
            return found
        close = self._close(text)
        if close is not None:
            question = f'There is no product of this name. Is it "{close}"?'
            raise Unclear(question, "Write its name as the book has it.")
        if SEVERAL.search(text) or GAP in text or not re.match(r"[^\W\d_]+\w", text):
            raise Unclear("This is not one product's name for certain.", "Write one name.")
        return self._begin(text, kinds[0], {"name": text, "kind": kinds[0], **GAPS[kinds[0]]}, row)

    def _close(self, text: str) -> str | None:
        """A known name that this one may be misspelt for: much the same letters, and the same digits."""
        # Another strength is another product, however much alike the names are.
        digits = re.findall("[0-9]+", text)
        close = nearest(simplified(text), [each for each in self.ids if re.findall("[0-9]+", each) == digits])
        return None if close is None else self.shown[close]

    def _begin(self, name: str, kind: str, data: dict[str, object], row: int) -> str:
        entry_id = id_from(name)
        if not entry_id or entry_id in self.taken:
            raise Unclear("No new file can be named after it.", "Write the product first: bowlbook new.")
        try:
            read_name(name)
        except Refusal as refusal:
            raise Unclear(refusal.message, refusal.mend) from refusal
        self.taken.add(entry_id)
        self.begun[entry_id] = (data, row)
        self.add(entry_id, kind, (entry_id, name))
        return entry_id

    def developer(self, text: str, row: int) -> str:
        """The id of a developer, by its name or its strength: ``20 vol``, ``6 %``. Raises `Unclear`."""
        found = self.known(text, ("developer",))
        strengths = list(dict.fromkeys(_strengths(text)))
        if found is not None or not strengths:
            return found or self.product(text, ("developer",), row)
        by_sign = {sign: number for number, sign in strengths}
        if len(by_sign) < len(strengths):
            raise Unclear("There are several strengths here.", "Write one, as 20 volume.")
        beside = simplified(STRENGTH.sub("", text))
        if beside and meanings("kind").get(beside) != "developer":
            return self.product(text, ("developer",), row)
        known = {each.id: {"volume": each.volume, "%": each.peroxide} for each in self.developers}
        fit = [each for each, said in known.items() if by_sign.items() <= said.items()]
        if len(fit) > 1:
            raise Unclear(f"The book has several: {', '.join(fit)}.", "Write the id of one.")
        if not fit and by_sign.keys() != {"volume"}:
            question = "The book has no developer of this strength; volumes are not worked out of per cent."
            raise Unclear(question, "Write its strength in volumes, as 20 volume.")
        return fit[0] if fit else self._new_developer(decimal_text(by_sign["volume"]), row)

    def _new_developer(self, volume: str, row: int) -> str:
        name = f"Developer {volume} volume"
        data: dict[str, object] = {"name": name, "kind": "developer", "volume": volume}
        return self.known(name, ("developer",)) or self._begin(name, "developer", data, row)


def _strengths(text: str) -> Iterator[tuple[Fraction, str]]:
    """Every strength in a text: its number, and volume or %."""
    for found in STRENGTH.finditer(text):
        if found[2] == "%" or simplified(found[2]) in words("volume"):
            yield number_in(found[1]), "%" if found[2] == "%" else "volume"
