"""unused-entry: a product or a blend that no other entry names."""

import pytest

from checks.small_book import (
    BLEND,
    BLEND_FILE,
    CLASS_FILE,
    CLAY,
    DEVELOPER,
    FOIL,
    FOIL_FILE,
    SITUATION_FILE,
    TECHNIQUE_FILE,
    SmallBook,
)


@pytest.mark.parametrize("text", [CLAY, DEVELOPER, FOIL])
def test_a_product_that_nothing_names(book: SmallBook, text: str) -> None:
    first = text.split("\n")[0].removeprefix("name: ")
    book.write("products/spare.yml", text.replace(first, f"«unused-entry?»Spare {first}", 1))
    book.shows(findings=1)


FOR_ANY = BLEND[: BLEND.index("suits:")] + "suits: {}\n" + BLEND[BLEND.index("reviewed:") :]


def test_a_blend_for_any_head_that_nothing_names(book: SmallBook) -> None:
    book.write("blends/spare.yml", FOR_ANY.replace("Soft clay", "«unused-entry?»Spare clay"))
    found = book.shows(findings=1)
    assert "delete" not in found[0].mend.lower()


def test_a_blend_that_suits_heads_is_an_answer_to_them(book: SmallBook) -> None:
    book.write("blends/spare.yml", BLEND.replace("Soft clay", "Spare clay"))
    book.shows(findings=0)


KEPT = ["kept_for: Tests of strands.\n", "retired: {on: 2026-10-02, because: Its maker has stopped.}\n"]


@pytest.mark.parametrize("kept", KEPT)
def test_what_is_kept_for_something_or_retired_is_not_unused(book: SmallBook, kept: str) -> None:
    book.write("products/spare.yml", FOIL.replace("name: ", "name: Spare ") + kept)
    if "retired" in kept:
        book.write("blends/spare.yml", FOR_ANY.replace("Soft clay", "Spare clay") + kept)
    book.shows(findings=0)


def test_what_a_retired_recipe_used_is_unused(book: SmallBook) -> None:
    book.write("products/spare.yml", CLAY.replace("Plain clay", "«unused-entry?»Spare clay"))
    blend = BLEND.replace("Soft clay", "Spare clay").replace("product: clay", "product: spare")
    book.write("blends/spare.yml", blend + "retired: {on: 2026-10-02, because: Nobody mixed it.}\n")
    book.shows(findings=1)


def test_a_book_of_blends_alone_has_no_finding(book: SmallBook) -> None:
    for path in (FOIL_FILE, TECHNIQUE_FILE, SITUATION_FILE, CLASS_FILE):
        (book.root / path).unlink()
        del book.texts[path]
    book.shows(findings=0)


@pytest.mark.parametrize(
    ("path", "text"),
    [
        (BLEND_FILE, "not_for: [{when: {texture: [coarse]}, because: It shows., instead: spare}]\n"),
        (SITUATION_FILE, "avoid: [{blend: spare, because: It is too much.}]\n"),
        (
            TECHNIQUE_FILE.replace("painting", "second"),
            "name: Second\nplacement: open-air\nsection_pattern: Halves.\n"
            "bowls: [{blend: spare, where: Ends., zones: 3}]\nsteps: [Paint.]\n"
            "processing: {minutes: 20 minutes, check_every: 5 minutes, stop_when: Up.}\nsuits: {curl: wavy}\n"
            "reviewed: {on: 2026-10-02, by: Ines}\n",
        ),
    ],
)
def test_one_mention_is_enough(book: SmallBook, path: str, text: str) -> None:
    book.write("blends/spare.yml", FOR_ANY.replace("Soft clay", "Spare clay"))
    book.write(path, book.texts.get(path, "") + text)
    book.shows(findings=0)


def test_one_mistake_is_one_finding(book: SmallBook) -> None:
    """What an entry with a mistake in it names is not called unused on top."""
    book.edit(BLEND_FILE, "parts: 3", "parts: «bad-amount»1/2")
    book.shows(findings=1)
