"""Products: what stands on the shelf. The file's ``kind`` says which of five classes reads it."""

from dataclasses import replace
from fractions import Fraction
from typing import Annotated

from bowlbook.entries import amounts
from bowlbook.entries.entry import FLOOR_NAMES, Entry, Part, said, shown
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

    net: amounts.Net = shown("Net content: 450 g, 1 L, 16 fl oz, 500 pieces.")
    price: amounts.Money | None = said("What the house pays, in its currency.", default=None)
    priced_on: amounts.Date | None = said("The day of that price.", default=None)
    currency: Currency | None = shown(
        "The currency of that price; a shared product must say it.", default=None
    )
    supplier: Name | None = said("Where the house buys it.", default=None)
    article: Name | None = said("The supplier's own number for it, for orders and price lists.", default=None)


class MixingRatio(Part):
    """The maker's ratio of lightener (or toner) to developer, by weight, and the range allowed."""

    usual: amounts.RatioField = shown("The usual ratio, as 1:2.")
    from_: amounts.RatioField | None = shown("The least developer allowed, as 1:1.5.", default=None)
    to: amounts.RatioField | None = shown("The most developer allowed, as 1:2.5.", default=None)


class Product(Entry):
    """What every product has."""

    name: Name = shown("The name on the shelf.")
    kind: Kind = shown("lightener, developer, toner, additive or supply.")
    summary: Sentence | None = shown("What it is for, in a sentence.", default=None)
    other_names: tuple[Name, ...] = shown(FLOOR_NAMES, default=())
    pack: Pack | None = shown("The pack it is bought in.", default=None)
    other_packs: tuple[Pack, ...] = said(
        "Packs of it from other suppliers, to order from; what is mixed is priced by pack.", default=()
    )
    kept_for: Sentence | None = shown("What it is kept for, where no recipe names it.", default=None)
    hazards: tuple[Sentence, ...] = shown("What its label and safety sheet warn of.", default=())
    pictures: tuple[Picture, ...] = shown("Pictures of the house's own.", default=())
    films: tuple[Film, ...] = shown("Films that stand elsewhere.", default=())
    notes: Markdown | None = shown("Notes, in Markdown.", default=None)
    formerly: tuple[FormerId, ...] = shown("Ids it had before.", default=())
    retired: RetiredProduct | None = shown(RETIRED_SAYS, default=None)
    instead_of_shared: YesNo = shown(
        "yes: stands here in the place of the shared product of the same id.", default=False
    )
    reviewed: Reviewed | None = shown("Last reviewed.", default=None)
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

    form: Annotated[str, one_of(FORMS, "a form")] = shown("clay, cream, oil or powder.")
    strength: Annotated[str, one_of(STRENGTHS, "a strength")] = shown(
        "gentle, medium or strong, as the house judges it."
    )
    lifts: Annotated[int, amounts.whole(1, 10, "levels")] = shown(
        "Up to how many levels it lifts, by its maker."
    )
    pigment: Annotated[str, one_of(PIGMENTS, "a pigment")] = shown(
        "The pigment in it that tones while it lifts, or none.", default="none"
    )
    mixing_ratio: MixingRatio = shown("Lightener to developer, by weight.")
    placement: Placements = shown("Where it may be used.")
    developer_limit: amounts.VolumeStrength | None = shown(STRONGEST_DEVELOPER, default=None)
    longest_on_hair: amounts.Minutes | None = shown(LONGEST_ON_HAIR, default=None)
    longest_on_scalp: amounts.Minutes | None = shown(LONGEST_ON_SCALP, default=None)
    density: amounts.Density | None = shown("Where it is sold by volume.", default=None)


class Developer(Product):
    """A developer: hydrogen peroxide of one strength."""

    volume: amounts.BareVolume = shown("Its strength in volumes.")
    peroxide: amounts.Percent | None = shown(
        "Hydrogen peroxide in it; left out, the nominal 3 % per 10 volume.", default=None
    )
    density: amounts.Density | None = shown("Where it is sold by volume.", default=None)
    placement: Placements = shown("Where it may be used.", default=())

    @property
    def peroxide_percent(self) -> Fraction:
        """Per cent of hydrogen peroxide: as written, else by the nominal map of the trade."""
        return self.peroxide if self.peroxide is not None else self.volume * Fraction(3, 10)


class Toner(Product):
    """A toner: what takes the leftover warmth away, or gives some back."""

    form: Annotated[str, one_of(("cream", "gel", "liquid"), "a form")] = shown("cream, gel or liquid.")
    tone: Annotated[tuple[str, ...], Words(TONES, "a tone")] = shown(
        "Where it takes the hair: warm, neutral, cool."
    )
    levels: Annotated[tuple[str, ...], Words([str(n) for n in range(1, 11)], "a level")] = shown(
        "On which lifted levels it is used, as [9, 10].", default=()
    )
    pigment: Annotated[str, one_of(TONER_PIGMENTS, "a toner's pigment")] | None = shown(
        "The pigment in it that neutralises warmth; left out where it gives some back.", default=None
    )
    mixing_ratio: MixingRatio = shown("Toner to developer, by weight.")
    developer_limit: amounts.VolumeStrength | None = shown(STRONGEST_DEVELOPER, default=None)
    longest_on_hair: amounts.Minutes | None = shown(LONGEST_ON_HAIR, default=None)
    longest_on_scalp: amounts.Minutes | None = shown(LONGEST_ON_SCALP, default=None)
    density: amounts.Density | None = shown("Where it is sold by volume.", default=None)


class Additive(Product):
    """An additive: a bond additive, a drop of pigment, an oil."""

    does: Sentence = shown("What it does in the bowl.")
    dose: amounts.RatioField | None = shown("Lightener to additive by its maker, by weight.", default=None)
    density: amounts.Density | None = shown("Where it is sold by volume.", default=None)


class Supply(Product):
    """A supply: foils, gloves, brushes, boards."""

    size: Sentence | None = shown("Its size, in words.", default=None)
    per_person: YesNo = shown(
        "yes: worn, as gloves and gowns; a class counts it by person, not by head.", default=False
    )


PRODUCT_KINDS: dict[str, type[Product]] = {
    "lightener": Lightener,
    "developer": Developer,
    "toner": Toner,
    "additive": Additive,
    "supply": Supply,
}
