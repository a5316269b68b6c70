"""The whole answer to a head and a wish: the verdict first, and only the recipes that it allows."""

from typing import NamedTuple

from bowlbook.figures.ask import Question, questions_of
from bowlbook.figures.head import Head
from bowlbook.figures.match import Ranking, Verdict, match
from bowlbook.figures.stop import Stop
from bowlbook.figures.verdict import Consultation, Practice, consult
from bowlbook.figures.visits import Visit


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
