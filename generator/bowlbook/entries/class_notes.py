"""Class notes: what is taught, in what order, on how many heads."""

from typing import Annotated

from bowlbook.entries.amounts import Minutes, whole
from bowlbook.entries.entry import ALSO_CALLED, Entry, Part, said, shown
from bowlbook.entries.hair_amount import DENSITIES, LENGTHS
from bowlbook.entries.picture import Film, Picture
from bowlbook.entries.retired import RETIRED_SAYS, RetiredClass
from bowlbook.entries.review import Reviewed
from bowlbook.entries.words import FormerId, Markdown, Name, Sentence, SupplyId, TechniqueId, one_of


class OutlineItem(Part):
    """One stretch of the class."""

    minutes: Minutes = shown("How long it takes.")
    what: Sentence = shown("What happens.")
    technique: TechniqueId | None = shown("The technique it is about.", default=None)


class Demonstration(Part):
    """A technique shown or practised."""

    technique: TechniqueId = shown("The technique.")
    heads: Annotated[int, whole(0, 200, "heads")] = shown("On how many heads, however many learners come.")
    learners_per_head: Annotated[int, whole(1, 50, "learners")] | None = shown(
        "Besides, a practice head for every so many learners.", default=None
    )
    shares_heads_with: TechniqueId | None = shown(
        "In place of learners_per_head: the technique of an earlier demonstration, whose practice heads are "
        "used again.",
        default=None,
    )
    length: Annotated[str, one_of(LENGTHS, "a length")] = shown(
        "How long that hair is; a kit reckons with it.", default="medium"
    )
    density: Annotated[str, one_of(DENSITIES, "a density")] = shown(
        "How dense that hair is.", default="medium"
    )
    on: Sentence | None = shown("On what kind of head.", default=None)


class ForEachLearner(Part):
    """What every learner uses up, such as gloves."""

    product: SupplyId = shown("The supply's id.")
    count: Annotated[int, whole(1, 200, "pieces")] = shown("How many each.")


class ClassNotes(Entry):
    """Class notes, ``recipes/classes/ID.yml``."""

    name: Name = shown("The class's title.")
    summary: Sentence | None = shown("Whom it is for, in a sentence.", default=None)
    other_names: tuple[Name, ...] = shown(ALSO_CALLED, default=())
    outcomes: tuple[Sentence, ...] = shown("What a learner can do afterwards.")
    learners: Annotated[int, whole(1, 500, "learners")] = shown("How many learners it is planned for.")
    duration: Minutes = shown("How long it takes in total.")
    outline: tuple[OutlineItem, ...] = shown("What happens when; adds up to the duration.")
    demonstrations: tuple[Demonstration, ...] = shown("What is shown and practised.", default=())
    for_each_learner: tuple[ForEachLearner, ...] = shown("Supplies that every learner uses up.", default=())
    handout: Markdown = shown("The handout's text, in Markdown.")
    formerly: tuple[FormerId, ...] = shown("Ids it had before.", default=())
    retired: RetiredClass | None = shown(RETIRED_SAYS, default=None)
    pictures: tuple[Picture, ...] = shown("Pictures of the house's own.", default=())
    films: tuple[Film, ...] = shown("Films that stand elsewhere.", default=())
    reviewed: Reviewed | None = shown("Last reviewed.", default=None)
    private: Markdown | None = said("Notes for the team only.", default=None)
