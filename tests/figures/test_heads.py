"""Heads described by hand: the first answer and the refusals are right, and each says why.

The heads and what is expected of them are in ``first_answers.yml``, each with the rule of the trade it was
written from: common practice, no published source. What stops a head is in ``heads.yml``.
"""

import re
from pathlib import Path

import pytest
from tests.yaml_file import yaml_file

from bowlbook.figures.candidate import Candidate
from bowlbook.figures.match import Ranking, Verdict, match
from bowlbook.wording.reason import reasons_of
from figures.said import head_from

CASES = yaml_file(Path(__file__).parent / "first_answers.yml")


def first_pair(answer: Ranking) -> Verdict | None:
    return next((each for each in answer.verdicts if each.suits and each.candidate.kind == "pair"), None)


def first_line(first: Verdict | None) -> str:
    return f"{first.candidate.id} in {first.candidate.within}" if first else "none"


def test_there_are_enough() -> None:
    assert len(CASES) >= 40


@pytest.mark.parametrize("case", CASES, ids=[", ".join(map(str, case["head"].values())) for case in CASES])
def test_first_answer_and_refusals(candidates: list[Candidate], case: dict) -> None:
    answer = match(candidates, head_from(case["head"]))
    assert answer.head is not None
    first = first_pair(answer)
    assert first_line(first) == case["first"]
    if first is not None:
        assert reasons_of(first, answer.head).why
    for entry_id, words in case["refused"].items():
        verdicts = [
            each
            for each in answer.verdicts
            if each.candidate.id == entry_id and each.candidate.kind in ("blend", "technique")
        ]
        assert len(verdicts) == 1, entry_id
        assert not verdicts[0].suits
        why = " ".join(reasons_of(verdicts[0], answer.head).why_not)
        assert why and re.search(words, why), f"{entry_id}: {why}"
