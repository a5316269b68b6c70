"""Who should know of a change: what a house's settings reach, and what is no change at the bench."""

from collections.abc import Callable

import pytest
from richer_book import enrich

from bowlbook.book.book import Book
from bowlbook.figures.difference import Difference, differences
from bowlbook.figures.fact import Fact
from bowlbook.wording.difference import fact_sentence, who_should_know
from checks.small_book import (
    BLEND_FILE,
    CLASS_FILE,
    CLAY_FILE,
    DEVELOPER_FILE,
    FOIL_FILE,
    HOUSE_FILE,
    TECHNIQUE_FILE,
    SmallBook,
)

SCALP = """\
name: Quiet regrowth
placement: on-scalp
section_pattern: Half-inch partings.
bowls: [{blend: scalp-clay, where: Regrowth., zones: [1]}]
steps: [Paint.]
processing: {minutes: 30 minutes, check_every: 5 minutes, stop_when: One level up.}
suits: {natural_level: 6-10}
"""


@pytest.fixture
def book(book: SmallBook) -> SmallBook:
    return enrich(book)


def changed(book: SmallBook, change: Callable[[], None]) -> tuple[list[Difference], Book]:
    old = book.read()
    change()
    new = book.read()
    return differences(old, new), new


def after(book: SmallBook, old: str, new: str, path: str = HOUSE_FILE) -> tuple[list[Difference], Book]:
    return changed(book, lambda: book.edit(path, old, new))


def test_a_finer_step_names_only_blends_whose_weights_differ(book: SmallBook) -> None:
    """By hand, 3:1 of 20 and 60 g is 15 and 5, 45 and 15 at any step; of 45 g it is 33.75 and 11.25, and 34
    and 11 in steps of 1 g. The gloss, one toner and twice as much developer, is weighed as before."""
    found, _ = after(book, "g: 1}", "g: 0.01}")
    blends = {each.id: each for each in found if each.kind == "blend"}
    assert set(blends) == {"soft-clay", "violet-foil"}
    assert {fact.what for fact in blends["soft-clay"].facts if not fact.money} == {
        "weigh for 45 g",
        "scale shows for 45 g",
    }
    [weigh] = [fact for fact in blends["soft-clay"].facts if fact.what == "weigh for 45 g"]
    assert (weigh.before, weigh.after) == (
        "34 Plain clay, 11 Violet powder",
        "33.75 Plain clay, 11.25 Violet powder",
    )


def test_a_finer_step_at_which_everything_is_weighed_as_before(book: SmallBook) -> None:
    for file in ("blends/violet-foil.yml", "techniques/foils.yml"):
        (book.root / file).unlink()
    book.edit(CLASS_FILE, "\n  - {technique: foils, heads: 1, learners_per_head: 2}", "")
    book.edit(HOUSE_FILE, "oz: [0.5, 1, 2], g: [20, 45, 60]", "oz: [1, 2], g: [20, 60]")
    found, new = after(book, "scale_step: {oz: 0.05, g: 1}", "scale_step: {oz: 0.025, g: 0.1}")
    assert [(each.kind, each.known_by) for each in found] == [("house", ())]
    assert who_should_know(new, found) == []


SAME = [
    (BLEND_FILE, "ratio: 1:2", "ratio: 2:4"),
    (BLEND_FILE, "parts: 3}\n  - {product: powder, parts: 1}", "parts: 6}\n  - {product: powder, parts: 2}"),
    (CLAY_FILE, "usual: 1:2, from: 1:1.5", "usual: 0.5:1, from: 2:3"),
    (CLAY_FILE, "450 g", "0.45 kg"),
    (DEVELOPER_FILE, "1 L", "1000 mL"),
    (TECHNIQUE_FILE, "mix_per_section: 5 g", "mix_per_section: 0.005 kg"),
    (TECHNIQUE_FILE, "minutes: 35 minutes", "minutes: 35 min"),
    ("blends/violet-foil.yml", "ratio: 12:1", "ratio: 6:0.5"),
]


@pytest.mark.parametrize(("path", "old", "new"), SAME)
def test_the_same_amount_in_other_words_is_no_change(book: SmallBook, path: str, old: str, new: str) -> None:
    assert after(book, old, new, path)[0] == []


def test_a_longer_wait_for_long_hair_only(book: SmallBook) -> None:
    """A house's factor for long hair: services on long hair are named, with their technique, and no other."""
    found, new = after(book, "long: 1.4,", "long: 2,")
    assert [(each.kind, each.id) for each in found] == [
        ("house", "house"),
        ("technique", "foils"),
        ("technique", "painting"),
    ]
    for each in found[1:]:
        assert all(" long hair (" in fact.what for fact in each.facts)
        assert any(fact.what.startswith("mix for long hair") for fact in each.facts)
    known = dict(who_should_know(new, found))
    assert known == {"Techniques": ["Open painting", "Wide foils"], "Class notes": ["First painting"]} | {
        title: names for title, names in known.items() if names == ["Fine hair, a little lighter"]
    }


def test_what_is_mixed_for_long_hair_by_hand(book: SmallBook) -> None:
    """22 sections of 5 g, x 1.4, + 5 %, parted by 3 (1:2): 53.9 g of lightener, 1.90 oz: one of 2 oz. Doubled
    instead of x 1.4, 77 g, 2.72 oz: 2 and 1 oz."""
    found, _ = after(book, "long: 1.4,", "long: 2,")
    [painting] = [each for each in found if each.id == "painting"]
    fact = next(each for each in painting.facts if each.what.endswith("(medium)"))
    assert fact == Fact(
        "mix for long hair (medium)", "2 oz Soft clay three to one", "2 + 1 oz Soft clay three to one"
    )


@pytest.mark.parametrize(
    ("old", "new", "kinds"),
    [
        ("waste_allowance: 5 %", "waste_allowance: 30 %", {"technique", "class", "situation"}),
        ("rounding_tolerance: 5 %", "rounding_tolerance: 1 %", {"blend", "technique", "class", "situation"}),
        ("g: 1}", "g: 4}", {"blend", "technique", "class", "situation"}),
        ("oz: [0.5, 1, 2]", "oz: [1, 2]", {"blend", "technique", "class", "situation"}),
        ("waste_allowance", "any_batch: yes\nwaste_allowance", {"technique", "class", "situation"}),
        ("standing: common practice", "standing: this house", {"situation"}),
        ("review_after: 180 days", "review_after: 90 days", set()),
        ("title: Small book", "title: Large book", set()),
        ("currency: CAD", "currency: AUD", set()),
    ],
)
def test_a_setting_of_the_house_names_who_should_know(
    book: SmallBook, old: str, new: str, kinds: set[str]
) -> None:
    if "standing" in old:
        book.edit(HOUSE_FILE, "tone: [cool]}", "texture: [fine]}")
    found, _ = after(book, old, new)
    house = found[0]
    assert house.kind == "house" and {kind for kind, _ in house.known_by} == kinds


def test_a_limit_on_the_scalp_names_what_goes_on_the_scalp(book: SmallBook) -> None:
    text = book.texts[BLEND_FILE].replace("name: Soft", "name: Scalp").replace("[open-air]", "[on-scalp]")
    book.write("blends/scalp-clay.yml", text)
    book.write("techniques/regrowth.yml", SCALP)
    found, new = after(book, "developer_limit: 20 volume", "developer_limit: 15 volume")
    assert found[0].known_by == (("blend", "scalp-clay"), ("technique", "regrowth"))
    assert who_should_know(new, found) == [
        ("Blends", ["Scalp clay three to one"]),
        ("Techniques", ["Quiet regrowth"]),
    ]


def test_a_legal_limit_names_every_blend_and_whatever_uses_it(book: SmallBook) -> None:
    limit = "limits: [{jurisdiction: Here, peroxide: 12 %, since: 2026-01-01, source: The law.}]\n"
    found, _ = changed(book, lambda: book.add(HOUSE_FILE, limit))
    text = "jurisdiction Here, peroxide 12 %, since 2026-01-01, source The law."
    assert found[0].facts == (Fact("limits", None, text),)
    assert {each for each in found[0].known_by if each[0] == "blend"} == {
        ("blend", "pearl-gloss"),
        ("blend", "soft-clay"),
        ("blend", "violet-foil"),
    }
    assert ("class", "first-painting") in found[0].known_by


def test_a_density_changes_the_volume_poured_and_no_weight(book: SmallBook) -> None:
    """By hand: 2 oz of developer is 56.699 g: at 1.02 g/mL 55.6 mL, at 1.04 54.5."""
    found, _ = after(book, "1.02", "1.04", DEVELOPER_FILE)
    [blend] = [each for each in found if each.id == "soft-clay"]
    assert Fact("volume for 1 oz", "55.6 mL Developer 20", "54.5 mL Developer 20") in blend.facts
    assert all(fact.money or fact.what.startswith("volume for ") for fact in blend.facts)


def test_a_product_that_is_renamed_is_weighed_as_before(book: SmallBook) -> None:
    """Its id and its name are another; no bowl, kit or service is."""

    def rename() -> None:
        text = book.texts[CLAY_FILE].replace("name: Plain clay", "name: Pale clay")
        book.write("products/pale-clay.yml", text + "formerly: [clay]\n")
        (book.root / CLAY_FILE).unlink()
        book.edit(BLEND_FILE, "product: clay", "product: pale-clay")
        book.edit("blends/violet-foil.yml", "product: clay", "product: pale-clay")

    [found] = changed(book, rename)[0]
    assert [fact.what for fact in found.facts] == ["id", "name"]


def test_a_text_that_reads_like_a_renamed_id_is_a_change(book: SmallBook) -> None:
    """A blend goes from soft to kind; a tool of a technique that is called so is another tool."""
    book.edit(TECHNIQUE_FILE, "steps:", "tools: [soft-clay]\nsteps:")

    def rename() -> None:
        book.write("blends/kind-clay.yml", book.texts[BLEND_FILE] + "formerly: [soft-clay]\n")
        (book.root / BLEND_FILE).unlink()
        for file in (TECHNIQUE_FILE, "situations/fine-hair.yml"):
            book.edit(file, "blend: soft-clay", "blend: kind-clay")
        for file in ("blends/violet-foil.yml", HOUSE_FILE):
            book.edit(file, "instead: soft-clay", "instead: kind-clay")
        book.edit(TECHNIQUE_FILE, "tools: [soft-clay]", "tools: [kind-clay]")

    found, _ = changed(book, rename)
    facts = {each.id: each.facts for each in found}
    assert facts == {
        "kind-clay": (Fact("id", "soft-clay", "kind-clay"),),
        "painting": (Fact("tools", "soft-clay", None), Fact("tools", None, "kind-clay")),
    }


@pytest.mark.parametrize("unit", ["oz", "g"])
def test_a_house_of_one_unit_has_services_and_kits(book: SmallBook, unit: str) -> None:
    sizes, step = {"oz": ("oz: [0.5, 1, 2]", "oz: 0.05"), "g": ("g: [20, 45, 60]", "g: 1")}[unit]
    book.edit(HOUSE_FILE, "batches: {oz: [0.5, 1, 2], g: [20, 45, 60]}", f"batches: {{{sizes}}}")
    book.edit(HOUSE_FILE, "scale_step: {oz: 0.05, g: 1}", f"scale_step: {{{step}}}")
    found, _ = after(book, "39.00", "45.00", CLAY_FILE)
    facts = {each.id: [fact.what for fact in each.facts] for each in found}
    assert facts["first-painting"] == ["cost of the kit"]
    assert "cost of a service, short hair (thin, medium, thick)" in facts["painting"]


def test_sizes_in_grams_and_steps_in_both_units(book: SmallBook) -> None:
    """The unit is one in which there are sizes, not the first that has a step."""
    book.edit(HOUSE_FILE, "batches: {oz: [0.5, 1, 2], g: [20, 45, 60]}", "batches: {g: [20, 45, 60]}")
    found, _ = after(book, "39.00", "45.00", CLAY_FILE)
    facts = {each.id: [fact.what for fact in each.facts] for each in found}
    assert facts["painting"] and facts["first-painting"]


def test_a_kit_line_by_hand(book: SmallBook) -> None:
    """By hand: two heads at 10 foils; one and, for six learners in pairs, three more at 30: 140 foils."""
    found, _ = after(book, "500 pieces", "100 pieces", FOIL_FILE)
    [notes] = [each for each in found if each.kind == "class"]
    assert notes.facts[0] == Fact(
        "kit, Foil, wide", "1 × 500 pieces, needs 140 pieces", "2 × 100 pieces, needs 140 pieces"
    )


def test_a_new_pack_does_not_quote_the_supplier(book: SmallBook) -> None:
    """A pack is about buying only: nobody at the scale should know."""
    pack = "pack: {net: 1 L, price: 14.50, priced_on: 2026-09-01}"
    book.edit(DEVELOPER_FILE, f"{pack}\n", "")
    text = pack.replace("}", ", supplier: Secret Goods}\n")
    found, new = changed(book, lambda: book.add(DEVELOPER_FILE, text))
    [developer] = [each for each in found if each.id == "developer-20"]
    assert developer.facts == (Fact("pack", None, "net 1 L, price 14.50, priced on 2026-09-01", money=True),)
    assert "Secret" not in repr(found)
    known = dict(who_should_know(new, found))
    assert set(known) <= {"Class notes"}


def test_costs_that_come_and_go_in_words() -> None:
    assert (
        fact_sentence(Fact("cost at 1 oz", None, "4.00 CAD", money=True))
        == "cost at 1 oz: now known, 4.00 CAD"
    )
    gone = Fact("cost of the kit", "9.00 CAD", None, money=True)
    assert fact_sentence(gone) == "cost of the kit: no longer known, was 9.00 CAD"
