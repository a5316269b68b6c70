"""The house: its money, its scales, its ladder of batches and its limits."""

from fractions import Fraction
from typing import Annotated

from bowlbook.entries.amounts import Date, Days, MassField, Minutes, Percent, VolumeStrength, whole
from bowlbook.entries.entry import Entry, Part, said, shown
from bowlbook.entries.hair_amount import HairAmounts
from bowlbook.entries.ladder import Ladder, Step
from bowlbook.entries.measure import Measure
from bowlbook.entries.rule import Rule
from bowlbook.entries.trade_word import TradeWord
from bowlbook.entries.words import (
    Currency,
    Locale,
    Markdown,
    Name,
    PhoneNumber,
    Sentence,
    SharedFolder,
    YesNo,
)


class ScaleSteps(Part):
    """The step of the house's scale: the smallest difference it shows."""

    oz: Step | None = shown("In ounces, as 0.05.", default=None)
    g: Step | None = shown("In grams, as 1.", default=None)

    @property
    def first(self) -> str:
        """The unit that the house reads first: oz where it has a step for it, else g."""
        return "oz" if self.oz is not None else "g"

    def of(self, unit: str) -> Fraction | None:
        """The step in ``oz`` or ``g``."""
        return self.oz if unit == "oz" else self.g


class Limit(Part):
    """A legal limit on peroxide in the bowl, with where and since when it holds and who says so."""

    jurisdiction: Name = shown("Where it holds.")
    peroxide: Percent = shown("Most hydrogen peroxide in the mixture as applied.")
    since: Date = shown("The day from which the cited text holds.")
    source: Sentence = shown("The text that says so: its title, number and place.")


class EmergencyNumber(Part):
    """A telephone number for emergencies, and where it holds."""

    jurisdiction: Name = shown("Where it holds.")
    number: PhoneNumber = shown("The number, as it is dialled there.")


class House(Entry):
    """The house's own entry, ``recipes/house.yml``: what every figure and check depends on."""

    title: Name = shown("The book's title, at the top of every page.")
    currency: Currency = shown("Three letters of ISO 4217, as CAD.")
    locale: Locale = shown("Language and region for money and dates, as en-CA.")
    notice: Sentence | None = shown(
        "A line shown on every page, such as that the data are invented.", default=None
    )
    about: Markdown | None = shown("A few words for the front page.", default=None)
    batches: Ladder = shown("The batches the house mixes, in weight of lightener, per unit.")
    scale_step: ScaleSteps = shown("The scale's step, per unit.")
    rounding_tolerance: Percent = shown("The worst relative error that rounding to the scale may cause.")
    largest_batch: MassField | None = shown(
        "The most lightener that fits one bowl; a larger batch is questioned. Left out, 500 g.", default=None
    )
    on_scalp_developer_limit: VolumeStrength = shown("The strongest developer the house puts on a scalp.")
    longest_on_scalp: Minutes | None = shown(
        "The longest the house leaves anything on a scalp, from the first section in to the last rinsed.",
        default=None,
    )
    review_after: Days = shown("How long a review of a recipe counts.")
    prices_stale_after: Days = shown("How long a price counts.", default=365)
    hair_amounts: HairAmounts | None = shown(
        "How much more or less a head takes, by length and density.", default=None
    )
    measures: tuple[Measure, ...] = shown(
        "The house's own measures, shown beside the scale's figure as an aid.", default=()
    )
    waste_allowance: Percent | None = shown(
        "What is mixed on top for what stays in the bowl and on the brush.", default=None
    )
    any_batch: YesNo = shown(
        "yes: a service is mixed in one exact batch; no: from the batch sizes.", default=False
    )
    lift_in_a_visit: Annotated[int, whole(1, 9, "levels of lift")] | None = shown(
        "The most levels of lift in one visit, for sound hair; fewer where a rule with visits says so.",
        default=None,
    )
    weeks_between_visits: Annotated[int, whole(1, 52, "weeks")] | None = shown(
        "The fewest weeks from one visit to the next.", default=None
    )
    limits: tuple[Limit, ...] = shown("Legal limits of the places where the house works.", default=())
    emergency_numbers: tuple[EmergencyNumber, ...] = shown(
        "The emergency numbers of the places where the house works, for the pages of troubles.", default=()
    )
    rules: tuple[Rule, ...] = shown(
        "House rules: what certain heads exclude, require or prefer, and what stops a head.", default=()
    )
    words: tuple[TradeWord, ...] = said(
        "What people here type into search, and what they mean. For the team's copy only.", default=()
    )
    products_from: SharedFolder | None = said(
        "A folder of products that several books share, from the folder of this file, as ../../products.",
        default=None,
    )
    private: Markdown | None = said("Notes for the team only.", default=None)
