"""What is tried on other systems than Linux: each is named, and no step there needs a shell of its own."""

import re
from pathlib import Path

from tests.yaml_file import yaml_file

ROOT = Path(__file__).parents[2]
JOBS = yaml_file(ROOT / ".github/workflows/check.yml")["jobs"]
PLAIN = re.compile(r'[\w .,:=/\[\]"-]+')
"""Words and quotation marks that bash and PowerShell read alike."""


def test_three_systems_and_two_pythons() -> None:
    matrix = JOBS["systems"]["strategy"]["matrix"]
    assert {each.partition("-")[0] for each in matrix["os"]} == {"ubuntu", "macos", "windows"}
    assert matrix["python"] == ["3.11", "3.x"]
    assert JOBS["systems"]["runs-on"] == "${{ matrix.os }}"


def test_no_step_needs_bash_where_there_may_be_none() -> None:
    for job in JOBS.values():
        for step in job["steps"]:
            somewhere_else = job["runs-on"] != "ubuntu-latest" and step.get("shell") != "bash"
            assert not somewhere_else or PLAIN.fullmatch(step.get("run", " ")), step


def test_the_tests_and_the_demo_book_are_run_there() -> None:
    runs = [step["run"] for step in JOBS["systems"]["steps"] if "run" in step]
    for words in ("python -m pytest", "bowlbook check --strict", "bowlbook build --strict"):
        assert any(run.startswith(words) for run in runs)
