"""The demo book as a colourist would sign it: names, scalps and bowls that agree with each other.

Common practice, no published source, except that persulfates sensitise skin and airways and that creams hold
them too (ANSES, 12 June 2019; NICNAS fact sheet for hairdressers, 2001).
"""

from bowlbook.entries.facets import FACETS, Facets, meet
from bowlbook.entries.product import Lightener
from bowlbook.figures.lightening_bowl import placements_of
from bowlbook.figures.region import outside, region_of


def test_every_lightener_is_named_as_one_and_says_persulfate(demo_book) -> None:
    """A cream or an oil says in its name that it lightens; no other name of it sounds like care."""
    lighteners = [each for each in demo_book.products.values() if isinstance(each, Lightener)]
    assert len(lighteners) >= 7
    for each in lighteners:
        assert any("persulfate" in hazard.casefold() for hazard in each.hazards), each.id
        for name in (each.name, *each.other_names):
            assert any(word in name.casefold() for word in ("lightener", "powder", "clay")), name


def test_no_blend_has_a_name_that_a_product_has(demo_book) -> None:
    def names(entries) -> list[str]:
        return [name.casefold() for each in entries for name in (each.name, *each.other_names)]

    both = names(demo_book.blends.values()) + names(demo_book.products.values())
    assert len(both) == len(set(both))


def test_instead_of_a_mix_for_the_scalp_is_one_for_the_scalp(demo_book) -> None:
    blends = demo_book.blends
    on_scalp = [each for each in blends.values() if "on-scalp" in each.suits.placement]
    assert len(on_scalp) >= 2
    for blend in on_scalp:
        for refusal in blend.not_for:
            if refusal.instead is not None:
                assert "on-scalp" in placements_of(demo_book, blends[refusal.instead]), blend.id
    for technique in demo_book.techniques.values():
        for refusal in technique.not_for if technique.placement == "on-scalp" else ():
            if refusal.instead is not None:
                assert demo_book.techniques[refusal.instead].placement == "on-scalp", technique.id


def test_what_is_named_instead_suits_the_hair_it_is_named_for(demo_book) -> None:
    """A cool wish that one technique refuses is not sent to another that ends warm."""
    refused = 0
    for recipes in (demo_book.blends, demo_book.techniques):
        for recipe in recipes.values():
            for refusal in recipe.not_for:
                if refusal.instead is None:
                    continue
                refused += 1
                found = recipes[refusal.instead]
                assert meet(refusal.when, found.suits) is not None, (recipe.id, found.id)
    assert refused >= 10


def test_an_hour_on_the_scalp_at_most(demo_book) -> None:
    """From the first parting to the rinse: applying, then processing."""
    techniques = [each for each in demo_book.techniques.values() if each.placement == "on-scalp"]
    assert len(techniques) >= 2
    for each in techniques:
        lightening = [bowl for bowl in each.bowls if not demo_book.blends[bowl.blend].tones]
        applying = sum(bowl.sections * bowl.minutes_per_section for bowl in lightening)
        assert applying + each.processing.minutes <= 60, each.id


def test_a_technique_suits_only_what_each_of_its_bowls_suits(demo_book) -> None:
    """Beside the area, which its bowls may share between them."""
    for technique in demo_book.techniques.values():
        for bowl in technique.bowls:
            blend = demo_book.blends[bowl.blend]
            if blend.tones:
                continue
            said = {name: getattr(technique.suits, name) for name in FACETS if name != "area"}
            named = {
                name: getattr(blend.suits, name)
                for name in said
                if said[name] or "level" in name or name == "lift"
            }
            assert outside(region_of(Facets(**said)), [region_of(Facets(**named))]) is None, (
                technique.id,
                blend.id,
            )
