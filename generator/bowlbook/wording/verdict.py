"""A consultation in plain sentences: the verdict and why, what comes before, the visits, what to ask next."""

from typing import NamedTuple

from bowlbook.figures.answer import Question
from bowlbook.figures.head import COLOURED, HISTORY, PERSON, PLACES, USUAL, VOLUME, WEEKS, Head
from bowlbook.figures.pigment import underlying_at
from bowlbook.figures.stop import CARE, STOP, TEST
from bowlbook.figures.verdict import NOT_TODAY, PAST_THE_LIGHTEST, TEST_FIRST, Consultation
from bowlbook.figures.visits import Visit
from bowlbook.reading.amount import counted
from bowlbook.wording.listing import both, either
from bowlbook.wording.reason import phrase

NOTHING_STOPS = (
    "Nothing that was said stops this head. The usual cautions hold, and the makers' leaflets first."
)
NOTHING_KNOWN = (
    "Nothing was said of the hair yet, so there is no answer: say at least its level and the wish."
)
NOTHING_IN_BOOK = (
    "Nothing in this book suits this head. Ask the lead colourist; do not take the nearest recipe."
)
NO_LIGHTENING = "No lift is asked for, so nothing that lightens is an answer."
STRAND_TEST = "Strand test with the very mix; what it shows counts before this plan."


class Before(NamedTuple):
    """Something to do, ask or test before anything else, why, and on whose word."""

    do: str
    because: str
    standing: str


def before_of(found: Consultation) -> list[Before]:
    """What comes first, strictest first: stops, tests, the plan over visits, what to take care of."""

    def rows(effect: str) -> list[Before]:
        of_effect = [each for each in found.stops if each.effect == effect]
        return [Before(each.do, each.because, each.standing) for each in of_effect]

    return [*rows(STOP), *rows(TEST), *_over_visits(found), *rows(CARE)]


MORE_THAN_ONE = "At most {} of lift in one visit, and a strand test before each."
SOUND_GIVES = "Sound hair gives no more in a day."
USUAL_STANDING = "usual: common practice, no published source"


def _over_visits(found: Consultation) -> list[Before]:
    """Why it takes more than one visit."""
    if not found.too_much:
        return []
    reasons = dict.fromkeys(each.because for each in found.limit.because)
    standing = found.limit.because[0].standing if found.limit.because else USUAL_STANDING
    do = MORE_THAN_ONE.format(counted(found.limit.levels, "level"))
    return [Before(do, " ".join(reasons) or SOUND_GIVES, standing)]


class Answered(NamedTuple):
    """A consultation as a page shows it."""

    verdict: str
    reason: str
    before: list[Before]
    visits: list[str]


def answered(found: Consultation, worst: Consultation, visits: list[str]) -> Answered | None:
    """What a page about many heads says first; None where there is nothing to say before the answers.

    ``worst``: the same, with what nobody knows taken as the worst: a page names those stops too.
    """
    # Nothing before a lift is no news; a wish without lift always says why nothing lightens it.
    before = before_of(worst)
    if not before and found.lightens:
        return None
    return Answered(found.verdict, verdict_reason(found), before, visits)


def verdict_reason(found: Consultation) -> str:
    """The verdict's reason in a sentence or two: what is strictest, or that nothing was said against it."""
    first = next(iter(before_of(found)), None)
    if not any(found.said):
        return NOTHING_KNOWN
    if not found.lightens and not any(each.effect != CARE for each in found.stops):
        return NO_LIGHTENING
    return f"{first.do} {first.because}" if first else NOTHING_STOPS


VISIT = "{when}: {lift}, to level {to}. The client sees {shows}; {tone}. {test}"
TODAY = "Today"
LATER = "{} later at the earliest"
TONED = "toned with {}"
NO_TONER = "this book has no toner for it"


def visit_sentence(visit: Visit, number: int, toners: list[str]) -> str:
    """One visit of a plan: when, to which level, and what the client sees at the end of it."""
    return VISIT.format(
        when=TODAY if number == 0 else LATER.format(counted(visit.weeks_later, "week")),
        lift=counted(visit.lift, "level"),
        to=visit.to,
        shows=underlying_at(visit.to).shows,
        tone=TONED.format(either(tuple(toners))) if toners else NO_TONER,
        test=STRAND_TEST,
    )


ASSUMED = ("history", "condition", "area", "texture", "density", "porosity", "curl", "grey")
"""Facets for which the usual head is assumed where nothing was said, the weightiest first."""


ASSUMED_HAIR = "Assumed, as nothing was said of it: {}. A recipe for other hair says so."
ASSUMED_PERSON = "Assumed, as nothing was said of the person: nothing that would stop it."
ASSUMED_WEEKS = "Assumed, as nobody said how long ago: just now."
AS_WRITTEN = "Whatever volume was asked for, mix as the recipe is written."


def assumptions_of(found: Consultation, head: Head) -> list[str]:
    """What an answer assumes where nothing was said."""
    if found.lightening is None and found.toning is None:
        return []
    unsaid = [name for name in ASSUMED if not head[PLACES.index(name)]]
    usual = [phrase(name, USUAL[PLACES.index(name)]) for name in unsaid]
    lines = [ASSUMED_HAIR.format(both(usual))] if usual else []
    if not head[PLACES.index("person")]:
        lines.append(ASSUMED_PERSON)
    if head[VOLUME]:
        lines.append(AS_WRITTEN)
    if head[HISTORY] & ~COLOURED and not head[WEEKS]:
        lines.append(ASSUMED_WEEKS)
    return lines


QUESTIONS = {
    "person": "Anything to know of the person: under 16, pregnant or nursing, sore scalp, an earlier "
    "reaction to colour or lightener, medicine or illness?",
    "history": "To be sure: was it ever coloured, lightened, permed, relaxed or smoothed? Henna, metallic "
    "dye or pool water in it?",
    "condition": "How is the hair: sound, dry, stretchy when wet, breaking?",
    "weeks": "How many weeks since the last of these?",
    "wearing": "Are extensions or braids in?",
    "natural_level": "Which level is it by nature, and which does it show now?",
    "area": "Where does it go: scalp regrowth, hairline, lengths, ends?",
    "porosity": "How readily does it take up water: low, medium, high?",
    "texture": "How thick is the single hair: fine, medium, coarse?",
    "curl": "Is it straight, wavy, curly or coily?",
    "density": "How much hair is there: thin, medium, thick?",
    "grey": "How much of it is grey?",
    "tone": "Which tone is wanted: warm, neutral, cool?",
    "volume": "Is a certain volume asked for?",
}


RAISES = "{ask} With {values}: {verdict}."
UNKNOWN_WEEKS = "{ask} Until somebody knows, none."
TAKES_AWAY = "{ask} It takes away up to {lost}."


def question_sentence(question: Question) -> str:
    """A question and what hangs on it."""
    ask = QUESTIONS[question.facet]
    if question.verdict is not None:
        values = either(tuple(map(str, question.stops)))
        return RAISES.format(ask=ask, values=values, verdict=question.verdict)
    if question.facet == "weeks":
        return UNKNOWN_WEEKS.format(ask=ask)
    return TAKES_AWAY.format(ask=ask, lost=counted(question.lost, "answer"))


ONCE_TESTED = "Only once the test is passed"
ONCE_AGREED = "Only once whoever must be asked agrees, and the test is passed"
FIRST_VISIT = "For the first visit, to level {}"
SAY_THE_LEVEL = "Say its level first: what the first visit can reach starts from there."
SURE = "To be sure: {}? Then {}."


def condition_of(found: Consultation) -> str | None:
    """What must have happened before anything is mixed; None where nothing must."""
    if found.verdict != TEST_FIRST:
        return None
    return ONCE_AGREED if found.said[PERSON] else ONCE_TESTED


def visit_heading(found: Consultation) -> str | None:
    """Which visit the answers are for; None where there is one visit, or its level is not known."""
    return FIRST_VISIT.format(found.visits[0].to) if found.visits else None


def unplanned(found: Consultation) -> bool:
    """Whether one visit is not enough and nobody knows the level a plan starts from: no recipe is for it."""
    return found.too_much and not found.visits and found.verdict != NOT_TODAY


PHONE_WORDS = {
    "nothing_stops": NOTHING_STOPS,
    "nothing_known": NOTHING_KNOWN,
    "nothing_in_book": NOTHING_IN_BOOK,
    "no_lightening": NO_LIGHTENING,
    "more_than_one": MORE_THAN_ONE,
    "sound_gives": SOUND_GIVES,
    "usual_standing": USUAL_STANDING,
    "visit": VISIT,
    "today": TODAY,
    "later": LATER,
    "toned": TONED,
    "no_toner": NO_TONER,
    "test": STRAND_TEST,
    "past_the_lightest": list(PAST_THE_LIGHTEST),
    "assumed": list(ASSUMED),
    "assumed_hair": ASSUMED_HAIR,
    "assumed_person": ASSUMED_PERSON,
    "assumed_weeks": ASSUMED_WEEKS,
    "as_written": AS_WRITTEN,
    "raises": RAISES,
    "unknown_weeks": UNKNOWN_WEEKS,
    "takes_away": TAKES_AWAY,
    "once_tested": ONCE_TESTED,
    "once_agreed": ONCE_AGREED,
    "first_visit": FIRST_VISIT,
    "say_the_level": SAY_THE_LEVEL,
    "sure": SURE,
}
"""The sentences that the phone puts together itself, with places in braces for its values."""
