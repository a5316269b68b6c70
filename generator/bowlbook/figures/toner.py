"""Toning recipes as candidates: matched with the level that the hair has when it is toned."""

from collections.abc import Iterator

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.rule import Rule
from bowlbook.entries.technique import Technique
from bowlbook.figures.candidate import Candidate, candidates_in_order, with_placement
from bowlbook.figures.head import DEEPER, LIGHTER, NO_LIFT, PLACEMENT, bits_of, head_but, head_of, head_with
from bowlbook.figures.own_clause import not_meant, own_clauses, unasked
from bowlbook.figures.pigment import neutralises, underlying_at
from bowlbook.figures.ruling import OWN, Clause, placement_clauses, rules_of
from bowlbook.figures.too_long import too_long
from bowlbook.figures.withdrawn import retired_in

DEEPENS = Clause(head_with(wish=DEEPER), "It takes hair deeper, as asked.", OWN)


def toners_of(book: Book) -> list[Candidate]:
    """Every blend that tones, and every technique whose bowls all tone, in the order of `candidates_of`.

    They are matched with the level that the hair has when it is toned, as its target level. What neutralises
    the pigment of a level comes first for a wish that is not warm. Rules about a lightener do not concern
    them; those that keep a placement from a head do. A toning bowl for regrowth alone goes on the scalp.
    """
    found = [toner_of(book, "blend", entry_id) for entry_id in book.blends]
    found += [toner_of(book, "technique", entry_id) for entry_id in book.techniques]
    return candidates_in_order(filter(None, found))


def toner_of(book: Book, kind: str, entry_id: str) -> Candidate | None:
    """The blend or technique of this id as `toners_of` has it; None for one that lightens or is retired."""
    if kind == "blend":
        blend = book.blends[entry_id]
        return _blend(book, blend) if blend.tones and not retired_in(book, blend) else None
    technique = book.techniques[entry_id]
    tones = all(book.blends[bowl.blend].tones for bowl in technique.bowls)
    return _technique(book, technique) if tones and not retired_in(book, technique) else None


def _blend(book: Book, blend: Blend) -> Candidate:
    on_scalp = _placed(rules_of(book), "on-scalp") if blend.suits.area == ("scalp regrowth",) else ()
    suits = head_but(head_of(blend.suits), PLACEMENT, 0)  # at the basin, wherever the lightener went
    against = (*_refusals(blend), *on_scalp)
    preferred = (*_neutralising(book, blend), *((DEEPENS,) if blend.deepens else ()))
    return Candidate("blend", blend.id, blend.name, suits, against, preferred, tones=True)


def _technique(book: Book, technique: Technique) -> Candidate:
    suits = with_placement(head_of(technique.suits), (technique.placement,))
    own = own_clauses("technique", technique.not_for)
    placed = _placed(rules_of(book), technique.placement)
    against = (*own, *placed, *too_long(book, technique), *_toning_bowls(book, technique))
    return Candidate("technique", technique.id, technique.name, suits, against, (), tones=True)


def _placed(rules: tuple[Rule, ...], placement: str) -> tuple[Clause, ...]:
    """What keeps a placement from a head, and what goes on the scalp from one that did not ask for it."""
    return (*placement_clauses(rules, placement), *unasked((placement,)))


def _toning_bowls(book: Book, technique: Technique) -> Iterator[Clause]:
    """What refuses a bowl of a technique that only tones."""
    for blend in {bowl.blend: book.blends[bowl.blend] for bowl in technique.bowls}.values():
        for clause in (*_refusals(blend), *not_meant(blend, technique.suits)):
            yield clause._replace(of=blend.name)


def _refusals(blend: Blend) -> Iterator[Clause]:
    """A toning bowl's own refusals; one that deepens is for the wish for a deeper level alone."""
    yield from own_clauses("blend", blend.not_for)
    if blend.deepens:
        yield Clause(head_with(wish=LIGHTER), "It takes deeper what was lifted.", OWN)
        yield Clause(head_with(wish=NO_LIFT), "It takes hair deeper, and no deeper level is asked for.", OWN)


def _neutralising(book: Book, blend: Blend) -> tuple[Clause, ...]:
    """For each level whose underlying pigment a toning bowl takes away: that it does."""
    bases = [book.base(each.product) for each in blend.toners]
    pigments = {each.pigment for each in bases}
    tone = bits_of("tone", ("neutral", "cool"))
    return tuple(
        Clause(
            head_with(target_level=1 << level - 1, tone=tone, wish=LIGHTER | NO_LIFT),
            f"Its {pigment} neutralises the {underlying_at(level).shows} of level {level}.",
            "common practice",
        )
        for pigment in sorted(filter(None, pigments))
        for level in range(1, 11)
        if neutralises(pigment, level)
    )
