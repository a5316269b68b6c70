"""The house: its money, its scales, its ladder of batches and its limits."""

from fractions import Fraction
from typing import Annotated

from bowlbook.entries.amounts import Date, Days, MassField, Minutes, Percent, VolumeStrength, whole
from bowlbook.entries.entry import Entry, Part, said
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

    oz: Step | None = said("In ounces, as 0.05.", public=True, default=None)
    g: Step | None = said("In grams, as 1.", public=True, default=None)

    @property
    def first(self) -> str:
        """The unit that the house reads first: oz where it has a step for it, else g."""
        return "oz" if self.oz is not None else "g"

    def of(self, unit: str) -> Fraction | None:
        """The step in ``oz`` or ``g``."""
        return self.oz if unit == "oz" else self.g


class Limit(Part):
    """A legal limit on peroxide in the bowl, with where and since when it holds and who says so."""

    jurisdiction: Name = said("Where it holds.", public=True)
    peroxide: Percent = said("Most hydrogen peroxide in the mixture as applied.", public=True)
    since: Date = said("The day from which the cited text holds.", public=True)
    source: Sentence = said("The text that says so: its title, number and place.", public=True)


class EmergencyNumber(Part):
    """A telephone number for emergencies, and where it holds."""

    jurisdiction: Name = said("Where it holds.", public=True)
    number: PhoneNumber = said("The number, as it is dialled there.", public=True)


class House(Entry):
    """The house's own entry, ``recipes/house.yml``: what every figure and check depends on."""

    title: Name = said("The book's title, at the top of every page.", public=True)
    currency: Currency = said("Three letters of ISO 4217, as CAD.", public=True)
    locale: Locale = said("Language and region for money and dates, as en-CA.", public=True)
    notice: Sentence | None = said(
        "A line shown on every page, such as that the data are invented.", public=True, default=None
    )
    about: Markdown | None = said("A few words for the front page.", public=True, default=None)
    batches: Ladder = said("The batches the house mixes, in weight of lightener, per unit.", public=True)
    scale_step: ScaleSteps = said("The scale's step, per unit.", public=True)
    rounding_tolerance: Percent = said(
        "The worst relative error that rounding to the scale may cause.", public=True
    )
    largest_batch: MassField | None = said(
        "The most lightener that fits one bowl; a larger batch is questioned. Left out, 500 g.",
        public=True,
        default=None,
    )
    on_scalp_developer_limit: VolumeStrength = said(
        "The strongest developer the house puts on a scalp.", public=True
    )
    longest_on_scalp: Minutes | None = said(
        "The longest the house leaves anything on a scalp, from the first section in to the last rinsed.",
        public=True,
        default=None,
    )
    review_after: Days = said("How long a review of a recipe counts.", public=True)
    prices_stale_after: Days = said("How long a price counts.", public=True, default=365)
    hair_amounts: HairAmounts | None = said(
        "How much more or less a head takes, by length and density.", public=True, default=None
    )
    measures: tuple[Measure, ...] = said(
        "The house's own measures, shown beside the scale's figure as an aid.", public=True, default=()
    )
    waste_allowance: Percent | None = said(
        "What is mixed on top for what stays in the bowl and on the brush.", public=True, default=None
    )
    any_batch: YesNo = said(
        "yes: a service is mixed in one exact batch; no: from the batch sizes.", public=True, default=False
    )
    lift_in_a_visit: Annotated[int, whole(1, 9, "levels of lift")] | None = said(
        "The most levels of lift in one visit, for sound hair; fewer where a rule with visits says so.",
        public=True,
        default=None,
    )
    weeks_between_visits: Annotated[int, whole(1, 52, "weeks")] | None = said(
        "The fewest weeks from one visit to the next.", public=True, default=None
    )
    limits: tuple[Limit, ...] = said(
        "Legal limits of the places where the house works.", public=True, default=()
    )
    emergency_numbers: tuple[EmergencyNumber, ...] = said(
        "The emergency numbers of the places where the house works, for the pages of troubles.",
        public=True,
        default=(),
    )
    rules: tuple[Rule, ...] = said(
        "House rules: what certain heads exclude, require or prefer, and what stops a head.",
        public=True,
        default=(),
    )
    words: tuple[TradeWord, ...] = said(
        "What people here type into search, and what they mean. For the team's copy only.", default=()
    )
    products_from: SharedFolder | None = said(
        "A folder of products that several books share, from the folder of this file, as ../../products.",
        default=None,
    )
    private: Markdown | None = said("Notes for the team only.", default=None)
