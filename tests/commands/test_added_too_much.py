"""``bowlbook mix --poured`` and ``--scale-shows``: what is in the bowl is never added again.

The oracle below is brute force from the documented rules alone: readings by largest remainder, ties to the
first (Hamilton, 1792); developer and additives by ratio, half up; the smallest batch in whole steps, from the
planned one up, whose readings hold all that is in; the scale shows what is in and every pour added since.
"""

from fractions import Fraction as F
from typing import Any

import pytest

from checks.small_book import SmallBook
from commands.bonded_book import BLENDS, bonded
from commands.run import run, run_json

STEP = F("0.05")
PARTS = [F(3), F(1)]
RATIOS = {"soft-clay": [F(2)], "bonded": [F(3, 2), F(1, 8)]}
IDS = ["clay", "powder", "developer-20", "bond"]


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> SmallBook:
    return bonded(tmp_path_factory.mktemp("added") / "recipes")


def readings(count: int, ratios: list[F]) -> list[int]:
    """A bowl of ``count`` steps of lightener, each pour in steps."""
    quotas = [count * part / sum(PARTS) for part in PARTS]
    floors = [int(quota) for quota in quotas]
    order = sorted(range(len(quotas)), key=lambda at: (floors[at] - quotas[at], at))
    for at in order[: count - sum(floors)]:
        floors[at] += 1
    return floors + [int(count * ratio + F(1, 2)) for ratio in ratios]


def oracle(ratios: list[F], planned: int, in_bowl: list[F]) -> tuple[F, list[tuple[F, F, F, F]]]:
    """The new batch, and of each pour: in the bowl, in the end, to add, and what the scale shows then."""
    count = planned
    while True:
        steps = readings(count, ratios)
        if all(each * STEP >= now for each, now in zip(steps, in_bowl, strict=False)) and 0 not in steps:
            break
        count += 1
    rows, shown = [], sum(in_bowl, F(0))
    for each, now in zip(steps, [*in_bowl, F(0), F(0), F(0), F(0)], strict=False):
        shown += each * STEP - now
        rows.append((now, each * STEP, each * STEP - now, shown))
    return count * STEP, rows


def rows_of(data: dict[str, Any]) -> tuple[F, list[tuple[F, F, F, F]]]:
    corrected = data["corrected"]
    keys = ("in_bowl", "must_be", "add", "scale_shows")
    return F(corrected["batch"].split()[0]), [
        (F(row[keys[0]]), F(row[keys[1]]), F(row[keys[2]]), F(row[keys[3]])) for row in corrected["pours"]
    ]


def over_pours(blend: str) -> list[tuple[int, F, list[F]]]:
    """Ten pours that went over at each place: the place, its weight, and all that is in the bowl then."""
    planned = [each * STEP for each in readings(10, RATIOS[blend])]
    found = []
    for place, plan in enumerate(planned):
        for steps in ("1", "2", "3", "5", "8", "13", "0.2", "1.4", "4.6", "21"):
            weight = plan + F(steps) * STEP
            found.append((place, weight, [*planned[:place], weight]))
    return found


@pytest.mark.parametrize("blend", BLENDS)
def test_ten_over_pours_at_each_place(kept: SmallBook, blend: str) -> None:
    """0.5 oz of 3:1 on steps of 0.05 oz; also weights between two steps."""
    cases = over_pours(blend)
    assert len(cases) == 10 * (3 if blend == "soft-clay" else 4)
    for place, weight, in_bowl in cases:
        words = ("mix", blend, "--batch", "0.5oz")
        by_weight = run_json(*words, "--poured", f"{IDS[place]}={float(weight)}oz", recipes=kept.root)
        assert rows_of(by_weight) == oracle(RATIOS[blend], 10, in_bowl), (place, weight)
        _, rows = rows_of(by_weight)
        assert [now for now, *_ in rows] == in_bowl + [F(0)] * (len(rows) - len(in_bowl))
        assert rows[-1][3] == sum(must for _, must, _, _ in rows)  # in the end the scale shows the whole bowl
        shows = f"{float(sum(in_bowl, F(0)))}oz"
        by_scale = run_json(*words, "--scale-shows", shows, "--after", IDS[place], recipes=kept.root)
        assert by_scale == by_weight


def test_the_case_that_began_it(kept: SmallBook) -> None:
    """Developer 1.25 oz for 1.00: both lighteners are in. 0.65 oz takes 1.30; 0.4875 and 0.1625 read 0.50
    and 0.15. In the bowl 0.40 + 0.10 + 1.25 = 1.75; then the scale shows 1.85, 1.90, 1.95. By hand."""
    data = run_json(
        "mix", "soft-clay", "--batch", "0.5oz", "--poured", "developer-20=1.25oz", recipes=kept.root
    )
    assert data["corrected"] == {
        "batch": "0.65 oz",
        "pours": [
            {"product": "clay", "in_bowl": "0.40", "must_be": "0.50", "add": "0.10", "scale_shows": "1.85"},
            {"product": "powder", "in_bowl": "0.10", "must_be": "0.15", "add": "0.05", "scale_shows": "1.90"},
            {
                "product": "developer-20",
                "in_bowl": "1.25",
                "must_be": "1.30",
                "add": "0.05",
                "scale_shows": "1.95",
            },
        ],
    }


def test_as_text(kept: SmallBook) -> None:
    words = ("mix", "soft-clay", "--batch", "0.5oz", "--scale-shows", "1.75oz", "--after", "developer-20")
    lines = [" ".join(line.split()) for line in run(*words, recipes=kept.root).stdout.splitlines()]
    at = lines.index(
        "In the bowl now: 0.40 Plain clay; 0.10 Violet powder; 1.25 Developer 20. "
        "Take nothing out; make it a batch of 0.65 oz:"
    )
    assert lines[at + 1 : at + 5] == [
        "Plain clay add 0.10, the scale shows 1.85",
        "Violet powder add 0.05, the scale shows 1.90",
        "Developer 20 add 0.05, the scale shows 1.95",
        "Rounding puts this 7.69 % off the recipe; the nearest size this scale can weigh is 0.80 oz.",
    ]


def test_too_little_keeps_the_batch_and_is_topped_up(kept: SmallBook) -> None:
    words = ("--poured", "powder=0.05oz", "--scale-shows", "1.35oz", "--after", "developer-20")
    data = run_json("mix", "soft-clay", "--batch", "0.5oz", *words, recipes=kept.root)
    # In: 0.40 as planned, 0.05 as said, and 1.35 - 0.45 = 0.90 of developer.
    assert rows_of(data) == oracle([F(2)], 10, [F("0.40"), F("0.05"), F("0.90")])
    assert data["corrected"]["batch"] == "0.50 oz"
    assert [row["scale_shows"] for row in data["corrected"]["pours"]] == ["1.35", "1.40", "1.50"]


def test_a_pour_that_was_left_out(kept: SmallBook) -> None:
    words = ("--poured", "powder=0oz", "--poured", "developer-20=1.00oz")
    data = run_json("mix", "soft-clay", "--batch", "0.5oz", *words, recipes=kept.root)
    assert [row["add"] for row in data["corrected"]["pours"]] == ["0.00", "0.10", "0.00"]


def test_as_planned_changes_nothing(kept: SmallBook) -> None:
    words = ("--poured", "clay=0.40oz", "--poured", "powder=0.1 oz")
    corrected = run_json("mix", "soft-clay", "--batch", "0.5oz", *words, recipes=kept.root)["corrected"]
    assert corrected["batch"] == "0.50 oz"
    assert [row["add"] for row in corrected["pours"]] == ["0.00", "0.00", "1.00"]


def test_decimals_that_the_scale_has_not_are_kept(kept: SmallBook) -> None:
    """12.7 g on a scale of whole grams: no reading is rounded away, and the last total is a whole step."""
    data = run_json("mix", "soft-clay", "--batch", "16g", "--poured", "clay=12.7g", recipes=kept.root)
    assert data["corrected"]["pours"][0] == {
        "product": "clay", "in_bowl": "12.7", "must_be": "13.0", "add": "0.3", "scale_shows": "13.0"
    }  # fmt: skip


ONE = ("mix", "soft-clay", "--batch", "1oz")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--poured", "clai=1oz"), 'Did you mean "clay"?'),
        (("--poured", "clay"), "PRODUCT=WEIGHT"),
        (("--poured", "clay=1 fl oz"), "fl oz"),
        (("--poured", "clay=-1oz"), "a sign has no place here"),
        (("--poured", "clay=22g"), "The bowl is weighed in oz, and 22 g is not"),
        (("--poured", "clay=1oz", "--poured", "clay=1.1oz"), 'the weight of "clay" twice'),
        (("--scale-shows", "1.5oz"), "go together"),
        (("--after", "clay"), "go together"),
        (("--scale-shows", "1.5oz", "--after", "cley"), 'Did you mean "clay"?'),
        (("--scale-shows", "80g", "--after", "clay"), "The bowl is weighed in oz"),
        (("--scale-shows", "2oz", "--after", "clay", "--poured", "clay=1oz"), "given twice"),
        (
            ("--scale-shows", "0.9oz", "--after", "developer-20"),
            "Before Developer 20 the scale showed 1.00 oz, so that after it 0.9 oz cannot be right.",
        ),
        (("--scale-shows", "1oz", "--after", "developer-20"), "cannot be right"),
        (("--scale-shows", "1.1oz", "--after", "developer-20", "--poured", "clay=1.2oz"), "showed 1.45 oz"),
    ],
)
def test_wrong_use(kept: SmallBook, words: tuple[str, ...], says: str) -> None:
    result = run(*ONE, *words, recipes=kept.root)
    assert result.exit_code == 2
    assert says in " ".join(result.stderr.split())
    assert result.stdout == ""
