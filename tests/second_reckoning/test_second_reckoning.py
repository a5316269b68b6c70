"""Every figure of random houses, reckoned a second time from the documented rules and compared.

`reckoning`, `service` and `change` use the standard library and the documents only, nothing of the program:
where the two differ, one of them or the documents are wrong. Source of every rule: pages/manual/commands.md
and services.md; of the units, NIST Handbook 44, Appendix C; of the minor units of currencies, ISO 4217.
"""

import json
import os
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from random import Random
from typing import Any

import pytest
from tests.commands.git import commit, git
from tests.commands.run import run, run_json
from tests.second_reckoning.books import DENSITIES, LENGTHS, Book, random_book, write_book
from tests.second_reckoning.change import differences
from tests.second_reckoning.edits import edited
from tests.second_reckoning.price_list import price_list
from tests.second_reckoning.reckoning import (
    Bowl,
    CannotWeigh,
    bowl_answer,
    corrected,
    in_the_bowl,
    trimmed,
    weigh_out,
)
from tests.second_reckoning.service import NoPlan, kit_answer, plan_answer
from tests.seeds import seeds, with_long

EVERYDAY = [2]
LONG = range(1, 5 if os.environ.get("BOWLBOOK_LONG") == "short" else 13)
SEEDS = with_long(EVERYDAY, [seed for seed in LONG if seed not in EVERYDAY])

STEPS = {"oz": ["0.025", "0.07", "0.001"], "g": ["0.4", "0.3", "2"]}
"""Steps of a scale that no house has."""
House = tuple[int, Book, Path]
"""Seed, book and the folder of its recipes."""


@pytest.fixture(scope="module", params=SEEDS)
def house(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> House:
    """A random house, written."""
    book = random_book(request.param)
    recipes = tmp_path_factory.mktemp("house") / "recipes"
    write_book(book, recipes)
    return request.param, book, recipes


def unlike(expected: Any, got: Any, path: str = "") -> Iterator[tuple[str, Any, Any]]:
    """Where an answer differs, in the keys that were reckoned."""
    if isinstance(expected, dict) and isinstance(got, dict):
        for key, value in expected.items():
            yield from unlike(value, got.get(key, "no such key"), f"{path}/{key}")
    elif isinstance(expected, list) and isinstance(got, list) and len(expected) == len(got):
        for at, (one, other) in enumerate(zip(expected, got, strict=True)):
            yield from unlike(one, other, f"{path}/{at}")
    elif expected != got:
        yield path, expected, got


def same(expected: Any, got: Any, *context: Any) -> None:
    """Assert that an answer is the one that was reckoned."""
    assert list(unlike(expected, got)) == [], context


def written(weight: Fraction, unit: str) -> str:
    """A weight as an option takes it."""
    return f"{trimmed(weight, 6)}{unit}"


def random_bowls(book: Book, random: Random) -> Iterator[tuple[list[str], Bowl | None]]:
    """Bowls on the house's scale and on others, in whole steps and not; none where one cannot be weighed."""
    for name, blend in book["blends"].items():
        for unit, steps in STEPS.items():
            own = book["house"]["house"]["scale_step"].get(unit, steps[0])
            for _ in range(4):
                step = Fraction(random.choice([own, own, *steps]))
                odd = Fraction(random.randint(300, 9000), 1000 if unit == "oz" else 100)
                batch = random.choice([random.randint(2, 80) * step, odd])
                developer = random.choice([blend["developer"]["product"], *blend["developer"]["also"]])
                words = ["mix", name, "--batch", written(batch, unit), "--developer", developer]
                words += ["--step", written(step, unit)]
                try:
                    yield words, weigh_out(book, name, unit, batch, step, developer)
                except CannotWeigh:
                    yield words, None


def test_bowls(house: House) -> None:
    seed, book, recipes = house
    answered = 0
    for words, bowl in random_bowls(book, Random(seed)):
        if bowl is None:
            assert "would read zero" in run(*words, recipes=recipes).stderr, words
        else:
            same(bowl_answer(book, bowl), run_json(*words, recipes=recipes), words)
            answered += 1
    assert answered >= 5


def random_pours(bowl: Bowl, random: Random) -> tuple[list[str], list[Fraction]]:
    """Options that say what is in a bowl, and what then is."""
    over = [random.randint(-3, 9) * bowl.step / random.choice([1, 1, 2]) for _ in bowl.pours]
    poured = {}
    for pour, more in random.sample(
        list(zip(bowl.pours, over, strict=True)), random.randint(0, len(bowl.pours) - 1)
    ):
        poured[pour.product] = max(pour.reading + more, Fraction(0))
    words = [
        word
        for product, weight in poured.items()
        for word in ("--poured", f"{product}={written(weight, bowl.unit)}")
    ]
    left = [pour.product for pour in bowl.pours if pour.product not in poured]
    if poured and random.random() < 0.5:
        return words, in_the_bowl(bowl, poured, None, None)
    after = random.choice(left)
    names = [pour.product for pour in bowl.pours]
    before = sum(in_the_bowl(bowl, poured, None, after)[: names.index(after)], Fraction(0))
    shows = before + random.randint(1, 40) * bowl.step
    words += ["--scale-shows", written(shows, bowl.unit), "--after", after]
    return words, in_the_bowl(bowl, poured, shows, after)


def as_numbers(answer: dict[str, Any]) -> dict[str, Any]:
    """A corrected bowl with numbers in place of decimals, and its batch without the unit."""
    pours = [
        {key: each if key == "product" else Fraction(each) for key, each in pour.items()}
        for pour in answer["pours"]
    ]
    return {"batch": Fraction(answer["batch"].split()[0]), "pours": pours}


def test_corrections(house: House) -> None:
    seed, book, recipes = house
    random = Random(seed)
    for words, bowl in random_bowls(book, random):
        for more, inside in [random_pours(bowl, random) for _ in range(2)] if bowl else []:
            got = run_json(*words, *more, recipes=recipes)["corrected"]
            same(corrected(book, bowl, inside), as_numbers(got), words, more)


def without_wording(answer: Any) -> Any:
    """An answer in which `cannot_weigh` is yes or no."""
    if isinstance(answer, dict):
        return {
            key: bool(each) if key == "cannot_weigh" else without_wording(each)
            for key, each in answer.items()
        }
    return [without_wording(each) for each in answer] if isinstance(answer, list) else answer


def test_services(house: House) -> None:
    seed, book, recipes = house
    random, planned = Random(seed), 0
    measured = next(iter(book["house"]["house"]["hair_amounts"]["density"]))
    heads: list[tuple[str, str, str | None]] = [
        (length, density, None) for length in LENGTHS for density in DENSITIES
    ]
    heads += [(length, measured, unit) for length in LENGTHS for unit in ("oz", "g")]
    for technique in book["techniques"]:
        for length, density, unit in random.sample(heads, 12):
            words = ["plan", technique, "--length", length.replace("_", "-"), "--density", density]
            words += ["--unit", unit] if unit else []
            hands = random.choice([None, None, 1, 2])
            words += ["--hands", str(hands)] if hands else []
            try:
                expected = plan_answer(book, technique, length, density, unit, hands)
            except NoPlan:
                assert run(*words, "--json", recipes=recipes).exit_code == 2, words
            else:
                got = without_wording(run_json(*words, recipes=recipes))
                by = expected["time"].pop("limit_by")
                assert got["time"].pop("limit_by") in (by or [None]), words
                same(expected, got, words)
                planned += 1
    assert planned >= 6


@pytest.mark.parametrize("learners", [None, 7, 40])
def test_kits(house: House, learners: int | None) -> None:
    _, book, recipes = house
    for ident in book["classes"]:
        words = ["kit", ident, *(["--learners", str(learners)] if learners else [])]
        try:
            expected = kit_answer(book, ident, learners)
        except NoPlan:
            assert run(*words, "--json", recipes=recipes).exit_code == 2, words
        else:
            same(expected, without_wording(run_json(*words, recipes=recipes)), words)


def same_changes(expected: list[dict[str, Any]], got: list[dict[str, Any]], *context: Any) -> None:
    """Assert that changed entries are the ones that were reckoned, in their order."""
    assert [(each["kind"], each["id"]) for each in got] == [
        (each["kind"], each["id"]) for each in expected
    ], context
    same(expected, got, *context)


@pytest.mark.parametrize("trial", seeds(3))
def test_price_lists(house: House, tmp_path: Path, trial: int) -> None:
    seed, book, recipes = house
    text, after = price_list(book, Random(f"{seed}/{trial}"))
    (tmp_path / "list.csv").write_text(text, encoding="utf-8")
    same_changes(
        differences(book, after), run_json("prices", str(tmp_path / "list.csv"), recipes=recipes), text
    )


@pytest.mark.parametrize("trial", seeds(3))
def test_differences(house: House, tmp_path: Path, trial: int) -> None:
    seed, book, _ = house
    after = edited(book, Random(f"{seed}/{trial}"))
    write_book(book, tmp_path / "old" / "recipes")
    git(tmp_path / "old", "init", "-q", ".")
    commit(tmp_path / "old", tag="before")
    (tmp_path / "old" / "recipes").rename(tmp_path / "recipes")
    write_book(after, tmp_path / "old" / "recipes")
    same_changes(differences(book, after), run_json("diff", "before", recipes=tmp_path / "old" / "recipes"))


def test_the_price_of_a_new_pack_has_the_decimals_of_its_currency(tmp_path: Path) -> None:
    """Prices with their currency's decimals: commands.md, "What is listed"; three for KWD by ISO 4217."""
    book = random_book(1)
    book["house"]["house"]["currency"] = "KWD"
    product = book["products"][book["blends"]["root"]["lighteners"][0]["product"]]
    product.pop("pack", None)
    write_book(book, tmp_path / "recipes")
    git(tmp_path, "init", "-q", ".")
    commit(tmp_path, tag="before")
    product["pack"] = {"net": "450 g", "price": "44.500", "priced_on": "2026-09-01"}
    write_book(book, tmp_path / "recipes")
    rows = run_json("diff", "before", recipes=tmp_path / "recipes")
    assert next(each["facts"] for each in rows if each["kind"] == "product") == [
        {"what": "pack", "before": None, "after": "net 450 g, price 44.500, priced on 2026-09-01"}
    ]


def test_that_a_difference_is_seen(house: House) -> None:
    """The comparison itself: another digit, another count, a missing key."""
    _, book, recipes = house
    words, bowl = next((words, bowl) for words, bowl in random_bowls(book, Random(1)) if bowl is not None)
    expected = bowl_answer(book, bowl)
    got = json.dumps(run_json(*words, recipes=recipes))
    for key in expected:
        if key != "pours":
            assert [path for path, *_ in unlike(expected | {key: "other"}, json.loads(got))] == [f"/{key}"]
    assert [path for path, *_ in unlike(expected | {"pours": expected["pours"][1:]}, json.loads(got))] == [
        "/pours"
    ]
    assert [path for path, *_ in unlike(expected | {"new": 1}, json.loads(got))] == ["/new"]
