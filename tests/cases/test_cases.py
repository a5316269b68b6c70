"""Runs the cases in the YAML files beside it, and holds that every code is documented and tried."""

import re
from pathlib import Path
from typing import Any

import pytest
from tests.yaml_file import yaml_file

from bowlbook.checks import code_of
from bowlbook.checks.run import CHECKS
from bowlbook.entries.validate import private_keys, validate
from bowlbook.reading.code import READING_CODES
from bowlbook.reading.document import read_text

HERE = Path(__file__).parent
CASES: list[dict[str, Any]] = [case for path in sorted(HERE.glob("*.yml")) for case in yaml_file(path)]


@pytest.mark.parametrize("case", CASES, ids=[case["case"] for case in CASES])
def test_case(case: dict[str, Any]) -> None:
    kind = "product" if case["kind"] == "supply" else case["kind"]
    source, findings = read_text(case["text"], "entry.yml", private_keys())
    _, more = validate(kind, "entry", source)
    found = [*findings, *more]
    reported = [f"{each.code} {each.place.line}:{each.place.column}" for each in found]
    assert sorted(reported) == sorted(case["finds"])
    assert case.get("says", "") in " ".join(f"{each.message} {each.mend}" for each in found)


def test_every_code_is_documented_and_every_documented_code_is_given() -> None:
    package = HERE.parents[1] / "generator" / "bowlbook"
    given = set()
    for room in ("reading", "entries", "book", "formatting", "importing", "commands"):
        for path in (package / room).glob("*.py"):
            if path.name != "code.py":
                text = path.read_text(encoding="utf-8")
                given |= set(re.findall(r'"((?:[a-z0-9]+-)+[a-z0-9]+)"', text)) & set(READING_CODES)
    assert given == set(READING_CODES)


def test_every_code_is_tried_somewhere() -> None:
    tests = HERE.parent
    text = "\n".join(
        path.read_text(encoding="utf-8")
        for pattern in ("*.py", "*.yml")
        for path in tests.rglob(pattern)
        if path.parent.name != "bench"
    )
    codes = set(READING_CODES) | {code_of(check) for check in CHECKS}
    assert {code for code in codes if code not in text} == set()
