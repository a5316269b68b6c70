"""Products: what stands on the shelf. The file's ``kind`` says which of five classes reads it."""

from dataclasses import replace
from fractions import Fraction
from typing import Annotated

from bowlbook.entries import amounts
from bowlbook.entries.entry import FLOOR_NAMES, Entry, Part, said
from bowlbook.entries.facets import TONES, Placements
from bowlbook.entries.picture import Film, Picture
from bowlbook.entries.retired import RETIRED_SAYS, RetiredProduct
from bowlbook.entries.review import Reviewed
from bowlbook.entries.words import Currency, FormerId, Markdown, Name, Sentence, Words, YesNo, one_of
from bowlbook.reading.source import Loc

FORMS = ("clay", "cream", "oil", "powder")
STRENGTHS = ("gentle", "medium", "strong")
PIGMENTS = ("none", "violet", "blue", "blue-violet", "green")
TONER_PIGMENTS = ("violet", "blue-violet", "blue", "blue-green", "green")
STRONGEST_DEVELOPER = "The strongest developer its maker allows."
LONGEST_ON_HAIR = "The longest time on the hair, by its maker."
LONGEST_ON_SCALP = "The longest time on the scalp, by its maker."
"""What fields of lighteners and of toners say of themselves."""
Kind = Annotated[str, one_of(("lightener", "developer", "toner", "additive", "supply"), "a kind of product")]


class Pack(Part):
    """What is bought: its net content, what it cost and when."""

    net: amounts.Net = said("Net content: 450 g, 1 L, 16 fl oz, 500 pieces.", public=True)
    price: amounts.Money | None = said("What the house pays, in its currency.", default=None)
    priced_on: amounts.Date | None = said("The day of that price.", default=None)
    currency: Currency | None = said(
        "The currency of that price; a shared product must say it.", public=True, default=None
    )
    supplier: Name | None = said("Where the house buys it.", default=None)
    article: Name | None = said("The supplier's own number for it, for orders and price lists.", default=None)


class MixingRatio(Part):
    """The maker's ratio of lightener (or toner) to developer, by weight, and the range allowed."""

    usual: amounts.RatioField = said("The usual ratio, as 1:2.", public=True)
    from_: amounts.RatioField | None = said(
        "The least developer allowed, as 1:1.5.", public=True, default=None
    )
    to: amounts.RatioField | None = said("The most developer allowed, as 1:2.5.", public=True, default=None)


class Product(Entry):
    """What every product has."""

    name: Name = said("The name on the shelf.", public=True)
    kind: Kind = said("lightener, developer, toner, additive or supply.", public=True)
    summary: Sentence | None = said("What it is for, in a sentence.", public=True, default=None)
    other_names: tuple[Name, ...] = said(FLOOR_NAMES, public=True, default=())
    pack: Pack | None = said("The pack it is bought in.", public=True, default=None)
    other_packs: tuple[Pack, ...] = said(
        "Packs of it from other suppliers, to order from; what is mixed is priced by pack.", default=()
    )
    kept_for: Sentence | None = said(
        "What it is kept for, where no recipe names it.", public=True, default=None
    )
    hazards: tuple[Sentence, ...] = said("What its label and safety sheet warn of.", public=True, default=())
    pictures: tuple[Picture, ...] = said("Pictures of the house's own.", public=True, default=())
    films: tuple[Film, ...] = said("Films that stand elsewhere.", public=True, default=())
    notes: Markdown | None = said("Notes, in Markdown.", public=True, default=None)
    formerly: tuple[FormerId, ...] = said("Ids it had before.", public=True, default=())
    retired: RetiredProduct | None = said(RETIRED_SAYS, public=True, default=None)
    instead_of_shared: YesNo = said(
        "yes: stands here in the place of the shared product of the same id.", public=True, default=False
    )
    reviewed: Reviewed | None = said("Last reviewed.", public=True, default=None)
    private: Markdown | None = said("Notes for the team only.", default=None)


def packs_of(product: Product) -> list[tuple[Loc, Pack]]:
    """Every pack with its place in the entry: the one that prices are from, then the other suppliers'."""
    own: list[tuple[Loc, Pack]] = [(("pack",), product.pack)] if product.pack else []
    return own + [(("other_packs", index), pack) for index, pack in enumerate(product.other_packs)]


def with_pack(product: Product, loc: Loc, pack: Pack) -> Product:
    """The product with this pack at this place."""
    if loc == ("pack",):
        changed = replace(product, pack=pack)
    else:
        others = [pack if at == loc else each for at, each in packs_of(product) if at != ("pack",)]
        changed = replace(product, other_packs=tuple(others))
    changed.placed(product.id, product.source)
    return changed


class Lightener(Product):
    """A lightener: what lifts."""

    form: Annotated[str, one_of(FORMS, "a form")] = said("clay, cream, oil or powder.", public=True)
    strength: Annotated[str, one_of(STRENGTHS, "a strength")] = said(
        "gentle, medium or strong, as the house judges it.", public=True
    )
    lifts: Annotated[int, amounts.whole(1, 10, "levels")] = said(
        "Up to how many levels it lifts, by its maker.", public=True
    )
    pigment: Annotated[str, one_of(PIGMENTS, "a pigment")] = said(
        "The pigment in it that tones while it lifts, or none.", public=True, default="none"
    )
    mixing_ratio: MixingRatio = said("Lightener to developer, by weight.", public=True)
    placement: Placements = said("Where it may be used.", public=True)
    developer_limit: amounts.VolumeStrength | None = said(STRONGEST_DEVELOPER, public=True, default=None)
    longest_on_hair: amounts.Minutes | None = said(LONGEST_ON_HAIR, public=True, default=None)
    longest_on_scalp: amounts.Minutes | None = said(LONGEST_ON_SCALP, public=True, default=None)
    density: amounts.Density | None = said("Where it is sold by volume.", public=True, default=None)


class Developer(Product):
    """A developer: hydrogen peroxide of one strength."""

    volume: amounts.BareVolume = said("Its strength in volumes.", public=True)
    peroxide: amounts.Percent | None = said(
        "Hydrogen peroxide in it; left out, the nominal 3 % per 10 volume.", public=True, default=None
    )
    density: amounts.Density | None = said("Where it is sold by volume.", public=True, default=None)
    placement: Placements = said("Where it may be used.", public=True, default=())

    @property
    def peroxide_percent(self) -> Fraction:
        """Per cent of hydrogen peroxide: as written, else by the nominal map of the trade."""
        return self.peroxide if self.peroxide is not None else self.volume * Fraction(3, 10)


class Toner(Product):
    """A toner: what takes the leftover warmth away, or gives some back."""

    form: Annotated[str, one_of(("cream", "gel", "liquid"), "a form")] = said(
        "cream, gel or liquid.", public=True
    )
    tone: Annotated[tuple[str, ...], Words(TONES, "a tone")] = said(
        "Where it takes the hair: warm, neutral, cool.", public=True
    )
    levels: Annotated[tuple[str, ...], Words([str(n) for n in range(1, 11)], "a level")] = said(
        "On which lifted levels it is used, as [9, 10].", public=True, default=()
    )
    pigment: Annotated[str, one_of(TONER_PIGMENTS, "a toner's pigment")] | None = said(
        "The pigment in it that neutralises warmth; left out where it gives some back.",
        public=True,
        default=None,
    )
    mixing_ratio: MixingRatio = said("Toner to developer, by weight.", public=True)
    developer_limit: amounts.VolumeStrength | None = said(STRONGEST_DEVELOPER, public=True, default=None)
    longest_on_hair: amounts.Minutes | None = said(LONGEST_ON_HAIR, public=True, default=None)
    longest_on_scalp: amounts.Minutes | None = said(LONGEST_ON_SCALP, public=True, default=None)
    density: amounts.Density | None = said("Where it is sold by volume.", public=True, default=None)


class Additive(Product):
    """An additive: a bond additive, a drop of pigment, an oil."""

    does: Sentence = said("What it does in the bowl.", public=True)
    dose: amounts.RatioField | None = said(
        "Lightener to additive by its maker, by weight.", public=True, default=None
    )
    density: amounts.Density | None = said("Where it is sold by volume.", public=True, default=None)


class Supply(Product):
    """A supply: foils, gloves, brushes, boards."""

    size: Sentence | None = said("Its size, in words.", public=True, default=None)
    per_person: YesNo = said(
        "yes: worn, as gloves and gowns; a class counts it by person, not by head.",
        public=True,
        default=False,
    )


PRODUCT_KINDS: dict[str, type[Product]] = {
    "lightener": Lightener,
    "developer": Developer,
    "toner": Toner,
    "additive": Additive,
    "supply": Supply,
}
