"""``bowlbook match``: what to mix and how to place it for a head of hair, with reasons."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from bowlbook.book.book import Book
from bowlbook.commands.printer import recipes_option, whole_book
from bowlbook.entries.facets import FACET_WORDS, FACETS
from bowlbook.figures.candidate import candidates_of
from bowlbook.figures.head import DOMAINS, Head, bits_of
from bowlbook.figures.match import Answer, Verdict, match
from bowlbook.figures.shortlist import Shortlist, index_of, shortlist
from bowlbook.figures.use import use_of
from bowlbook.reading.amount import read_span
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.refusal import Refusal
from bowlbook.wording.amount import plain_number
from bowlbook.wording.developer import mixed_with
from bowlbook.wording.reason import NOTHING_TO_LIFT, described, label, pigment_sentences, reasons_of

OPTIONS = {"natural_level": "level", "target_level": "to"}
"""Facets whose option has a shorter name."""


def _bits(facet: str) -> Callable[[click.Context, click.Parameter, tuple[str, ...]], int]:
    """Reads one facet's option, which may be given more than once, as a bit set."""

    def read(ctx: click.Context, param: click.Parameter, given: tuple[str, ...]) -> int:
        bits = 0
        for text in given:
            if facet in FACET_WORDS:
                words = FACET_WORDS[facet]
                if text not in words:
                    raise click.BadParameter(f'"{text}" is not one. {did_you_mean(text, words)}', ctx, param)
                bits |= bits_of(facet, (text,))
            else:
                try:
                    span = read_span(text, 1, int(DOMAINS[facet][-1]), facet.replace("_", " "))
                except Refusal as refusal:
                    raise click.BadParameter(f"{refusal.message} {refusal.mend}", ctx, param) from refusal
                bits |= bits_of(facet, span)
        return bits

    return read


def _options(function: Callable[..., None]) -> Callable[..., None]:
    for facet in reversed(FACETS):
        words = FACET_WORDS.get(facet)
        name = OPTIONS.get(facet, facet)
        function = click.option(
            f"--{name}",
            facet,
            multiple=True,
            callback=_bits(facet),
            metavar="|".join(words) if words else "N or N-N",
        )(function)
    return function


@click.command()
@_options
@recipes_option
@click.option("--json", "as_json", is_flag=True, help="Print the whole answer as JSON.")
def command(recipes: Path, as_json: bool, **asked: int) -> None:
    """Say what to mix and how to place it for a head of hair, and what not to, with reasons.

    Every facet may be left out; one may be given more than once, where more than one is true.
    """
    book = whole_book(recipes)
    candidates, head = candidates_of(book), tuple(asked[name] for name in FACETS)
    if as_json:
        click.echo(json.dumps(answer_data(book, match(candidates, head)), indent=2, ensure_ascii=False))
    else:
        click.echo(_text(book, shortlist(index_of(candidates), head)))


def answer_data(book: Book, answer: Answer) -> dict[str, Any]:
    """The answer as plain data: every candidate, best first, with its reasons.

    ``developer`` and ``volume`` are those of the strongest that its lightening bowls are written for.
    ``placement`` lists where it may go, ``cautions`` the recipe's own.
    """
    if answer.head is None:
        return {"head": None, "says": NOTHING_TO_LIFT, "pigment": [], "answers": []}
    rows = []
    for verdict in answer.verdicts:
        reasons = reasons_of(verdict, answer.head)
        candidate = verdict.candidate
        use = use_of(book, candidate)
        strongest = use.developers[0]
        rows.append(
            {
                "kind": candidate.kind,
                "id": candidate.id,
                "within": candidate.within,
                "tones": use.tones,
                "placement": list(use.placements),
                "developer": strongest.id,
                "volume": plain_number(strongest.volume),
                "cautions": list(use.cautions),
                "suits": verdict.suits,
                "excluded": bool(verdict.excluded),
                "misses": len(verdict.misses),
                "why": list(reasons.why),
                "why_not": list(reasons.why_not),
                "ask": list(reasons.ask),
                "instead": reasons.instead[1] if reasons.instead else None,
            }
        )
    return {
        "head": described(answer.head),
        "says": None,
        "pigment": pigment_sentences(answer.head),
        "answers": rows,
    }


def _text(book: Book, found: Shortlist | None) -> str:
    if found is None:
        return NOTHING_TO_LIFT
    lines = [f"For {described(found.head)}:", *(f"  {line}" for line in pigment_sentences(found.head))]
    for kind, title in (("pair", "Take"), ("blend", "Blends"), ("technique", "Techniques")):
        suiting = found.suiting(kind, 3).verdicts
        lines.append(f"\n{title}:" if suiting else f"\n{title}: none in this book suits.")
        for number, verdict in enumerate(suiting, 1):
            lines += _lines(book, found.head, verdict, f"{number}.")
        refused = () if kind == "pair" else found.refused(kind, 3).verdicts
        if refused:
            lines.append("  Not:")
            for verdict in refused:
                lines += _lines(book, found.head, verdict, "–")
    lines.append("\nFollow the makers' instructions first; patch test, strand test, gloves.")
    return "\n".join(lines)


def _lines(book: Book, head: Head, verdict: Verdict, mark: str) -> list[str]:
    reasons = reasons_of(verdict, head)
    lines = [f"  {mark} {label(book, verdict)}"]
    if verdict.suits:
        use = use_of(book, verdict.candidate)
        lines.append(f"     {mixed_with(use)}")
        lines += [f"     Caution: {caution}" for caution in use.cautions]
    sentences = reasons.why if verdict.suits else reasons.why_not
    lines += [f"     {sentence}" for sentence in sentences]
    if verdict.suits:
        lines += [f"     Ask first: {sentence}" for sentence in reasons.ask]
    elif reasons.instead is not None:
        kind, entry_id = reasons.instead
        name = getattr(book.of_kind(kind).get(entry_id), "name", entry_id)
        lines.append(f"     Instead: {name}")
    return lines
