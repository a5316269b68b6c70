"""The whole answer to a head and a wish: the verdict, what to ask next, and the recipes that it allows."""

from typing import NamedTuple

from bowlbook.figures.head import DOMAINS, HISTORY, PLACES, VOLUME, WEEKS, Head, head_but
from bowlbook.figures.match import Ranking, Verdict, match
from bowlbook.figures.stop import Stop
from bowlbook.figures.verdict import VERDICTS, Consultation, Practice, consult, lightening_answers
from bowlbook.figures.visits import Visit

ASKED = (
    *("person", "history", "condition", "weeks", "wearing", "natural_level", "area", "porosity", "texture"),
    *("curl", "density", "grey", "tone", "volume"),
)
"""What can be asked, in the order in which equally weighty questions come."""
WISH_LAST = "volume"
MOST = 5
"""More questions nobody answers with a client in the chair."""


class Question(NamedTuple):
    """A facet that was not said. ``verdict``: the strictest that its values lead to, where that is stricter
    than now. ``stops``: the values that do. ``lost``: how many answers the worst of its values takes away."""

    facet: str
    verdict: str | None
    stops: tuple[int | str, ...]
    lost: int


def questions_of(practice: Practice, head: Head, found: Consultation, most: int = MOST) -> list[Question]:
    """The weightiest first: by how far the verdict would rise, then by how many answers would go; what was
    asked for comes after what is so."""
    now = VERDICTS.index(found.verdict)
    weighed = []
    for name in ASKED:
        place = PLACES.index(name)
        if not head[place] and (place != WEEKS or head[HISTORY]):
            question, rise = _weighed(practice, head, found, place, now)
            if rise or question.lost:
                weighed.append((rise, question))
    weighed.sort(key=lambda each: (each[1].facet == WISH_LAST, -each[0], -each[1].lost))
    return [question for _, question in weighed[:most]]


def _weighed(
    practice: Practice, head: Head, found: Consultation, place: int, now: int
) -> tuple[Question, int]:
    """One question, and by how many steps its worst value raises the verdict; weeks may lower it too."""
    before = _count(practice, found)
    name = PLACES[place]
    # Nobody is asked for a volume that the house has no developer of.
    asked = [n for n in range(len(DOMAINS[name])) if place != VOLUME or practice.volumes >> n & 1]
    ranks, lost = [], 0
    for value in asked:
        then = consult(practice, head_but(head, place, 1 << value))
        ranks.append(VERDICTS.index(then.verdict))
        if then.lightening is not None:
            lost = max(lost, before - _count(practice, then))
    worst = max(ranks, default=now)
    values = [DOMAINS[name][value] for value in asked]
    rise = max(abs(rank - now) for rank in ranks) if place == WEEKS else max(0, worst - now)
    stops = tuple(value for value, rank in zip(values, ranks, strict=True) if rank == worst > now)
    return Question(name, VERDICTS[worst] if worst > now else None, stops, lost), rise


def _count(practice: Practice, found: Consultation) -> int:
    if found.lightening is None:
        return 0
    return lightening_answers(practice, found.lightening).count()


class Answer(NamedTuple):
    """A consultation with its rankings.

    ``questions``: what was not said and would change the verdict or take answers away, the weightiest first.
    ``lightening``, ``toning``: every recipe that lightens and that tones, best first, those that do not suit
    too; None where the verdict allows none of them.
    """

    consultation: Consultation
    questions: tuple[Question, ...]
    lightening: Ranking | None
    toning: Ranking | None

    @property
    def verdict(self) -> str:
        """One of `bowlbook.figures.verdict.VERDICTS`."""
        return self.consultation.verdict

    @property
    def stops(self) -> tuple[Stop, ...]:
        """Every stop, test and caution that holds, strictest first, each with its reason and standing."""
        return self.consultation.stops

    @property
    def visits(self) -> tuple[Visit, ...]:
        """The plan, where the wish takes more than one visit and the level it starts from is known."""
        return self.consultation.visits

    @property
    def suiting(self) -> tuple[Verdict, ...]:
        """What the verdict allows and what suits: recipes that lighten, then those that tone, best first."""
        rankings = filter(None, (self.lightening, self.toning))
        return tuple(each for ranking in rankings for each in ranking.verdicts if each.suits)


def answer_to(practice: Practice, head: Head) -> Answer:
    """The answer to one head in the chair, which need not be complete."""
    found = consult(practice, head)
    return Answer(
        found,
        tuple(questions_of(practice, head, found)),
        match(practice.lightening.candidates, found.lightening) if found.lightening else None,
        match(practice.toning.candidates, found.toning) if found.toning else None,
    )
