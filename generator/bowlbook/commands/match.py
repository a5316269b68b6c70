"""``bowlbook match``: a verdict on a head and a wish; then what to mix and how to place it, with reasons."""

from collections.abc import Callable, Iterable, Iterator
from itertools import count
from pathlib import Path

import click

from bowlbook.book.book import Book
from bowlbook.commands.printer import print_json, recipes_option, whole_book, wrong_use
from bowlbook.figures.answer import Answer, answer_to, questions_of
from bowlbook.figures.head import PLACES, TONE, Head, values_of
from bowlbook.figures.match import Verdict
from bowlbook.figures.pigment import underlying_at
from bowlbook.figures.said_head import ASKED, WORDS, head_of_bits, said_bits
from bowlbook.figures.shortlist import Shortlist
from bowlbook.figures.use import use_of
from bowlbook.figures.verdict import (
    Consultation,
    Practice,
    consult,
    lightening_answers,
    practice_of,
    toners_at,
    toning_answers,
)
from bowlbook.reading.refusal import Refusal
from bowlbook.wording import verdict as wording
from bowlbook.wording.amount import plain_number
from bowlbook.wording.entry import name_of
from bowlbook.wording.reason import described, label, mixed_with, pigment_sentences, reasons_of

OPTIONS = {"natural_level": "level", "target_level": "to"}
"""Facets whose option has a shorter name."""


def _bits(facet: str) -> Callable[[click.Context, click.Parameter, tuple[str, ...]], int]:
    """A callback that reads one facet's option, given any number of times, as a bit set."""

    @wrong_use(Refusal, usage_error=click.BadParameter)
    def read(ctx: click.Context, param: click.Parameter, given: tuple[str, ...]) -> int:
        return said_bits(facet, given)

    return read


def _options(function: Callable[..., None]) -> Callable[..., None]:
    for facet in reversed(ASKED):  # the decorator applied last is listed first
        if facet == "heat":
            function = click.option("--heat", is_flag=True, help="Heat is asked for.")(function)
            continue
        function = click.option(
            f"--{OPTIONS.get(facet, facet)}",
            facet,
            multiple=True,
            callback=_bits(facet),
            metavar="|".join(WORDS.get(facet, ())) or "N or N-N",
            help=HELP.get(facet),
        )(function)
    return function


HELP = {
    "natural_level": "The natural level.",
    "now": "The level the hair shows now, where it was coloured or lightened.",
    "target_level": "The level that is wished for.",
    "lift": "Levels of lift; 0 where only the tone is to change.",
    "history": "What was done to the hair; several may be true.",
    "weeks": "Weeks since the last of these.",
    "person": "What must be known of the person; never kept.",
    "volume": "The volume of developer that is asked for.",
}


@click.command()
@_options
@recipes_option
@click.option("--json", "as_json", is_flag=True, help="Print the whole answer as JSON.")
def command(recipes: Path, as_json: bool, heat: bool, **asked: int) -> None:
    """Say whether a head may be lightened today; then what to mix, how to place it, and what not to.

    The verdict comes first: go, with care, tone only, more than one visit, test first or not today. A refusal
    is an answer: the exit code is 0.

    Every facet may be left out; one may be given more than once. Nothing of what is asked is kept.
    """
    book = whole_book(recipes)
    practice, head = practice_of(book), head_of_bits({**asked, "heat": int(heat)})
    if as_json:
        print_json(answer_data(book, practice, head, answer_to(practice, head)))
    else:
        click.echo(_text(book, practice, head, consult(practice, head)))


def answer_data(book: Book, practice: Practice, head: Head, answer: Answer) -> dict[str, object]:
    """The answer as plain data: the verdict, what comes before, the visits, and every recipe, best first.

    ``developer`` and ``volume`` are those of the strongest that its bowls for this head are written for.
    ``placement`` lists where it may go, ``cautions`` the recipe's own. ``minutes`` and ``first_check`` are
    the technique's. ``asked``: what was said, by facet; ``only_once``: what must have happened before
    anything is mixed. No recipe is listed that the verdict does not allow.
    """
    found = answer.consultation
    answers = []
    for head_asked, part, answers_of in (
        (found.lightening, answer.lightening, lightening_answers),
        (found.toning, answer.toning, toning_answers),
    ):
        if head_asked is not None and part is not None:
            short = answers_of(practice, head_asked)
            answers += [_row(book, each, short) for each in part.verdicts]
    allowed = found.lightening or found.toning
    says = wording.NOTHING_IN_BOOK if allowed and not answer.suiting else None
    return {
        "verdict": found.verdict,
        "reason": wording.verdict_reason(found),
        "before": [each._asdict() for each in wording.before_of(found)],
        "only_once": wording.condition_of(found),
        "visits": [
            {
                "to": each.to,
                "weeks_later": each.weeks_later,
                "lift": each.lift,
                "shows": underlying_at(each.to).shows,
                "tone_with": [toner.id for toner in toners_at(practice, each.to, head[TONE])],
            }
            for each in found.visits
        ],
        "asked": asked_values(head),
        "head": described(found.said),
        "says": says,
        "assumes": wording.assumptions_of(found, head),
        "ask": [
            {
                "ask": wording.question_sentence(each),
                "facet": each.facet,
                "verdict": each.verdict,
                "values": list(each.stops),
                "answers_lost": each.lost,
            }
            for each in answer.questions
        ],
        "pigment": [sentence for _, sentence in pigment_sentences(found.lightening or found.said)],
        "answers": answers,
    }


def asked_values(head: Head) -> dict[str, list[int | str]]:
    """The values that were said of a head, by facet."""
    return {name: list(values_of(name, bits)) for name, bits in zip(PLACES, head, strict=True) if bits}


def _row(book: Book, verdict: Verdict, answers: Shortlist) -> dict[str, object]:
    reasons = reasons_of(verdict, answers.head, answers)
    candidate = verdict.candidate
    use = use_of(book, candidate, answers.head)
    strongest = use.developers[0]
    return {
        "kind": candidate.kind,
        "id": candidate.id,
        "within": candidate.within,
        "tones": use.tones,
        "placement": list(use.placements),
        "developer": strongest.id,
        "volume": plain_number(strongest.volume),
        "minutes": None if use.minutes is None else plain_number(use.minutes),
        "first_check": None if use.check_every is None else plain_number(use.check_every),
        "cautions": list(use.cautions),
        "suits": verdict.suits,
        "excluded": bool(verdict.excluded),
        "misses": len(verdict.misses),
        "why": list(reasons.why),
        "why_not": list(reasons.why_not),
        "ask": list(reasons.ask),
        "instead": reasons.instead[1] if reasons.instead else None,
    }


def _text(book: Book, practice: Practice, head: Head, found: Consultation) -> str:
    """The answer for a terminal, the verdict first."""
    verdict = f"{found.verdict.capitalize()}: {wording.verdict_reason(found)}"
    lines = [verdict, f"\nFor {described(found.said)}."]
    before = (f"{each.do} {each.because} ({each.standing})" for each in wording.before_of(found))
    lines += _listed("Before anything else", before)
    toners = [[toner.name for toner in toners_at(practice, each.to, head[TONE])] for each in found.visits]
    visits = map(wording.visit_sentence, found.visits, count(), toners)
    lines += _listed("Visits", visits)
    lines += _listed("Ask next", map(wording.question_sentence, questions_of(practice, head, found)))
    headings = filter(None, (wording.condition_of(found), wording.visit_heading(found)))
    if found.lightening is not None or found.toning is not None:
        lines += [f"\n{heading}:" for heading in headings]
    if wording.unplanned(found):
        lines += ["", wording.SAY_THE_LEVEL]
    else:
        lines += _answers(book, practice, found)
    lines += _listed("What this answer assumes", wording.assumptions_of(found, head))
    lines.append("\nFollow the makers' instructions first; patch test, strand test, gloves.")
    return "\n".join(lines)


def _answers(book: Book, practice: Practice, found: Consultation) -> Iterator[str]:
    """What lightens, and what tones, as far as the verdict allows."""
    if found.lightening is not None:
        short = lightening_answers(practice, found.lightening)
        yield from ("", *(sentence for _, sentence in pigment_sentences(found.lightening)))
        yield from _of_kinds(book, short, LIGHTENING_KINDS)
        if not short.count():
            yield wording.NOTHING_IN_BOOK
    if found.toning is not None:
        short = toning_answers(practice, found.toning)
        yield from _of_kinds(book, short, TONING_KINDS)
        if found.lightening is None and not short.count():
            yield wording.NOTHING_IN_BOOK


LIGHTENING_KINDS = (("pair", "Take"), ("blend", "Blends"), ("technique", "Techniques"))
TONING_KINDS = (("blend", "To tone"), ("technique", "Toning techniques"))


def _listed(title: str, sentences: Iterable[str]) -> list[str]:
    found = [f"  - {each}" for each in sentences]
    return ["", f"{title}:", *found] if found else []


def _of_kinds(book: Book, short: Shortlist, kinds: tuple[tuple[str, str], ...]) -> Iterator[str]:
    for kind, title in kinds:
        suiting = short.suiting(kind, 3).verdicts
        refused = () if kind == "pair" else short.refused(kind, 3).verdicts
        if suiting or refused or kind == "pair":
            yield f"\n{title}:" if suiting else f"\n{title}: none in this book suits."
        for number, verdict in enumerate(suiting, 1):
            yield from _lines(book, short, verdict, f"{number}.")
        if refused:
            yield "  Not:"
        for verdict in refused:
            yield from _lines(book, short, verdict, "–")


def _lines(book: Book, short: Shortlist, verdict: Verdict, mark: str) -> list[str]:
    reasons = reasons_of(verdict, short.head, short)
    lines = [f"  {mark} {label(book, verdict)}"]
    if verdict.suits:
        use = use_of(book, verdict.candidate, short.head)
        lines.append(f"     {mixed_with(use)}")
        lines += [f"     Caution: {caution}" for caution in use.cautions]
    sentences = reasons.why if verdict.suits else reasons.why_not
    lines += [f"     {sentence}" for sentence in sentences]
    if verdict.suits:
        lines += [f"     Ask first: {sentence}" for sentence in reasons.ask]
    elif reasons.instead is not None:
        kind, entry_id = reasons.instead
        entry = book.of_kind(kind).get(entry_id)
        lines.append(f"     Instead: {entry_id if entry is None else name_of(entry)}")
    return lines
