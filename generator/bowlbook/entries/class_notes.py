"""Class notes: what is taught, in what order, on how many heads."""

from typing import Annotated

from bowlbook.entries.amounts import Minutes, whole
from bowlbook.entries.entry import ALSO_CALLED, Entry, Part, said
from bowlbook.entries.hair_amount import DENSITIES, LENGTHS
from bowlbook.entries.picture import Film, Picture
from bowlbook.entries.retired import RETIRED_SAYS, RetiredClass
from bowlbook.entries.review import Reviewed
from bowlbook.entries.words import FormerId, Markdown, Name, Sentence, SupplyId, TechniqueId, one_of


class OutlineItem(Part):
    """One stretch of the class."""

    minutes: Minutes = said("How long it takes.", public=True)
    what: Sentence = said("What happens.", public=True)
    technique: TechniqueId | None = said("The technique it is about.", public=True, default=None)


class Demonstration(Part):
    """A technique shown or practised."""

    technique: TechniqueId = said("The technique.", public=True)
    heads: Annotated[int, whole(0, 200, "heads")] = said(
        "On how many heads, however many learners come.", public=True
    )
    learners_per_head: Annotated[int, whole(1, 50, "learners")] | None = said(
        "Besides, a practice head for every so many learners.", public=True, default=None
    )
    shares_heads_with: TechniqueId | None = said(
        "In place of learners_per_head: the technique of an earlier demonstration, whose practice heads are "
        "used again.",
        public=True,
        default=None,
    )
    length: Annotated[str, one_of(LENGTHS, "a length")] = said(
        "How long that hair is; a kit reckons with it.", public=True, default="medium"
    )
    density: Annotated[str, one_of(DENSITIES, "a density")] = said(
        "How dense that hair is.", public=True, default="medium"
    )
    on: Sentence | None = said("On what kind of head.", public=True, default=None)


class ForEachLearner(Part):
    """What every learner uses up, such as gloves."""

    product: SupplyId = said("The supply's id.", public=True)
    count: Annotated[int, whole(1, 200, "pieces")] = said("How many each.", public=True)


class ClassNotes(Entry):
    """Class notes, ``recipes/classes/ID.yml``."""

    name: Name = said("The class's title.", public=True)
    summary: Sentence | None = said("Whom it is for, in a sentence.", public=True, default=None)
    other_names: tuple[Name, ...] = said(ALSO_CALLED, public=True, default=())
    outcomes: tuple[Sentence, ...] = said("What a learner can do afterwards.", public=True)
    learners: Annotated[int, whole(1, 500, "learners")] = said(
        "How many learners it is planned for.", public=True
    )
    duration: Minutes = said("How long it takes in total.", public=True)
    outline: tuple[OutlineItem, ...] = said("What happens when; adds up to the duration.", public=True)
    demonstrations: tuple[Demonstration, ...] = said("What is shown and practised.", public=True, default=())
    for_each_learner: tuple[ForEachLearner, ...] = said(
        "Supplies that every learner uses up.", public=True, default=()
    )
    handout: Markdown = said("The handout's text, in Markdown.", public=True)
    formerly: tuple[FormerId, ...] = said("Ids it had before.", public=True, default=())
    retired: RetiredClass | None = said(RETIRED_SAYS, public=True, default=None)
    pictures: tuple[Picture, ...] = said("Pictures of the house's own.", public=True, default=())
    films: tuple[Film, ...] = said("Films that stand elsewhere.", public=True, default=())
    reviewed: Reviewed | None = said("Last reviewed.", public=True, default=None)
    private: Markdown | None = said("Notes for the team only.", default=None)
