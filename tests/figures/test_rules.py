"""House rules as clauses, against asking every way in which a recipe can be used one by one."""

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bowlbook.book.book import Book
from bowlbook.entries.circumstances import Circumstances
from bowlbook.entries.facets import PLACEMENTS, TEXTURES
from bowlbook.entries.product import FORMS, PIGMENTS, STRENGTHS
from bowlbook.entries.rule import Rule, Traits
from bowlbook.figures.candidate import candidates_of, lightening
from bowlbook.figures.head import assumed
from bowlbook.figures.lightening_bowl import placements_of, ruled_out
from bowlbook.figures.match import verdict_on
from bowlbook.figures.toner import toners_of
from bowlbook.reading.amount import Span
from figures.said import head_from
from seeds import with_long


def some(words: tuple[str, ...]) -> st.SearchStrategy[tuple[str, ...]]:
    """None of the words, or up to three."""
    return st.just(()) | st.lists(st.sampled_from(words), min_size=1, max_size=3, unique=True).map(tuple)


volumes = st.none() | st.tuples(st.integers(1, 60), st.integers(1, 60)).map(lambda two: Span(*sorted(two)))
traits = st.builds(
    Traits,
    placement=some(PLACEMENTS),
    strength=some(STRENGTHS),
    form=some(FORMS),
    pigment=some(PIGMENTS),
    developer=volumes | st.just(Span(20, 20)) | st.just(Span(1, 20)),
)
heads = st.builds(Circumstances, texture=some(TEXTURES), placement=some(PLACEMENTS))


def uses_of(book, blend, placements, developers):
    """Every way to use a blend: a placement, and a developer's volumes."""
    lighteners = [book.lightener(each.product) for each in blend.lighteners]
    strongest = max((each.strength for each in lighteners), key=STRENGTHS.index)
    forms, pigments = {each.form for each in lighteners}, {each.pigment for each in lighteners}
    return [(where, strongest, forms, pigments, volume) for where, volume in product(placements, developers)]


def has(wanted: Traits, use) -> bool:
    where, strongest, forms, pigments, volume = use
    return (
        (not wanted.placement or where in wanted.placement)
        and (not wanted.strength or strongest in wanted.strength)
        and (not wanted.form or bool(forms & set(wanted.form)))
        and (not wanted.pigment or bool(pigments & set(wanted.pigment)))
        and (wanted.developer is None or wanted.developer.low <= volume <= wanted.developer.high)
    )


def recipes_of(book):
    """(kind, recipe, its placements, the ways to use it; of a technique for each bowl that lightens).

    A blend is judged as it is written, with its own developer: that is what an answer says.
    """
    for blend in lightening(book):
        where = placements_of(book, blend)
        own = [book.developer(blend.developer.product).volume]
        yield "blend", blend, where, [uses_of(book, blend, where, own)]
    for technique in book.techniques.values():
        bowls = []
        for bowl in technique.bowls:
            blend = book.blends[bowl.blend]
            if not blend.tones:
                own = [book.developer(bowl.developer or blend.developer.product).volume]
                bowls.append(uses_of(book, blend, (technique.placement,), own))
        if bowls:
            yield "technique", technique, (technique.placement,), bowls


def kept_from(rule: Rule, where, bowls) -> set[str]:
    """The placements at which a rule keeps a recipe from the heads that it names: by any one of its bowls."""
    kept = set()
    for place, uses in product(where, bowls):
        at = [use for use in uses if use[0] == place]
        if rule.exclude is not None and all(has(rule.exclude, use) for use in at):
            kept.add(place)
        if rule.require is not None and not any(has(rule.require, use) for use in at):
            kept.add(place)
    return kept


@given(heads, traits, st.sampled_from(["exclude", "require"]))
def test_what_a_rule_keeps_from_whom(demo_book, heads: Circumstances, wanted: Traits, word: str) -> None:
    holds_for_all(demo_book, heads, wanted, word)


@pytest.mark.parametrize("word", ["exclude", "require"])
@pytest.mark.parametrize(
    "where", with_long([PLACEMENTS[:2]], [(), *((each,) for each in PLACEMENTS), PLACEMENTS[1:]])
)
def test_rules_made_for_each_recipe(demo_book, where: tuple[str, ...], word: str) -> None:
    """Placements with the very traits of each recipe, and with each of them put wrong: where it is close."""
    seen = set()
    for _, _, _, bowls in recipes_of(demo_book):
        _, strongest, forms, pigments, volume = bowls[0][0]
        own = {
            "strength": (strongest,),
            "form": tuple(sorted(forms)),
            "pigment": tuple(sorted(pigments)),
            "developer": Span(int(volume), int(volume)),
        }
        wrong = {
            "strength": tuple(each for each in STRENGTHS if each != strongest),
            "form": tuple(each for each in FORMS if each not in forms),
            "pigment": tuple(each for each in PIGMENTS if each not in pigments),
            "developer": Span(int(volume) + 1, 60),
        }
        made = [{}, own, *({key: own[key]} for key in own), *({**own, key: wrong[key]} for key in own)]
        for each in made:
            if repr(each) not in seen:
                seen.add(repr(each))
                for heads in (
                    Circumstances(texture=("coarse",)),
                    Circumstances(placement=("foil",)),
                    Circumstances(),
                ):
                    holds_for_all(demo_book, heads, Traits(placement=where, **each), word)
    assert len(seen) > 50


def holds_for_all(demo_book, heads: Circumstances, wanted: Traits, word: str) -> None:
    """Hold what a rule keeps from whom against every use of every recipe."""
    rule = Rule(when=heads, because="x", standing="this house", **{word: wanted})
    for _, recipe, where, bowls in recipes_of(demo_book):
        kept = kept_from(rule, where, bowls)
        said = [found for _, found in ruled_out(demo_book, recipe, (rule,))]
        if kept == set(where):
            assert said == [heads]
        else:
            named = kept & set(heads.placement or PLACEMENTS)
            assert [set(each.placement) for each in said] == ([named] if named else [])
            assert all(each.texture == heads.texture for each in said)


@given(heads, traits)
def test_whom_a_rule_prefers(demo_book, heads: Circumstances, wanted: Traits) -> None:
    rule = Rule(when=heads, because="For this test.", standing="this house", prefer=wanted)
    house = replace(demo_book.house, rules=(rule,))
    house.placed(demo_book.house.id, demo_book.house.source)
    found = candidates_of(replace(demo_book, house=house))
    preferred = {(each.kind, each.id) for each in found if each.preferred_by}
    for kind, recipe, _, bowls in recipes_of(demo_book):
        liked = any(has(wanted, use) for uses in bowls for use in uses)
        assert ((kind, recipe.id) in preferred) is liked
    for each in found:
        assert [clause.because for clause in each.preferred_by] in ([], ["For this test."])


def test_a_rule_about_a_placement_alone_keeps_toning_techniques_too(demo_book: Book) -> None:
    """Nothing on the scalp while pregnant, or before the doctor was asked: a root shadow is no lightener, and
    goes on the scalp all the same. A rule about a lightener's strength does not concern it."""
    found = {(each.kind, each.id): each for each in toners_of(demo_book)}
    for key in (("technique", "root-shadow"), ("blend", "shadow-gloss")):
        for person in ("pregnant or nursing", "medicine or illness"):
            head = assumed(head_from({"level": 9, "to": 9, "area": "scalp regrowth", "person": [person]}))
            because = [clause.because for clause in verdict_on(found[key], head).excluded]
            assert any("on the scalp" in each for each in because)
        plain = assumed(head_from({"level": 9, "to": 9, "area": "scalp regrowth", "tone": "neutral"}))
        assert verdict_on(found[key], plain).suits
        unasked = assumed(head_from({"level": 9, "to": 9, "tone": "neutral"}))
        assert [each.because[:22] for each in verdict_on(found[key], unasked).excluded] == [
            "It goes on the scalp, "
        ]
