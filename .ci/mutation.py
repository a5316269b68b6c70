"""Mutation testing of the rooms that reckon and read: how many wrong programs the tests find.

``python .ci/mutation.py [PATTERN …]`` needs ``pip install -e ".[test,mutation]"`` and changes a copy in
``build/mutation``; a pattern is a file such as ``generator/bowlbook/figures/rounding.py``. Ends with 1 below
`WANTED`.
"""

import json
import re
import shutil
import subprocess
import sys
from fnmatch import fnmatch
from pathlib import Path

WANTED = 95
"""Per cent of mutants that must be found out."""
TESTS = {
    "generator/bowlbook/reading/*.py": [
        "reading",
        "cases",
        "fuzz/test_corpus.py",
        "checks/test_examples.py",
        "book",
    ],
    "generator/bowlbook/figures/*.py": [
        *("figures", "reference"),
        *(f"commands/test_{name}_command.py" for name in ("mix", "match", "plan", "kit", "diff")),
    ],
}
"""For each room the tests that are to find its mutants."""
CONFIG = """
[tool.mutmut]
source_paths = ["src/bowlbook"]
only_mutate = {patterns}
also_copy = ["generator", "recipes", "docs", "mkdocs.yml", "README.md", "DEVELOPERS.md"]
pytest_add_cli_args = [
  "-o", "addopts=", "-m", "not browser and not long", "-p", "no:xdist", "--hypothesis-profile", "found-out",
]
pytest_add_cli_args_test_selection = {tests}
"""


def main(patterns: list[str]) -> int:
    """Mutate each room apart and say what came of it."""
    shares = []
    for room, tests in TESTS.items():
        wanted = [each for each in patterns or [room] if fnmatch(each, room)]
        if wanted:
            counts = mutated(wanted, [f"tests/{each}" for each in tests])
            found = counts["killed"] + counts["timeout"]
            shares.append(100 * found / counts["total"])
            rest = f"{counts['survived']} not, {counts['no_tests']} untried"
            sums = f"{counts['total']} mutants, {found} found out ({shares[-1]:.1f} %), {rest}"
            print(f"{' '.join(wanted)}: {sums}")
    return 0 if shares and min(shares) >= WANTED else 1


def mutated(patterns: list[str], tests: list[str]) -> dict[str, int]:
    """Copy what git knows, and run mutmut over the copy: how many mutants had which end."""
    copy = Path("build/mutation")
    shutil.rmtree(copy, ignore_errors=True)
    for name in subprocess.check_output(["git", "ls-files"], text=True).splitlines():
        # mutmut knows a source folder only by the name src; tests read files of the package in generator too.
        for target in {name, re.sub("^generator/", "src/", name)}:
            (copy / target).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(name, copy / target)
    settings = (copy / "pyproject.toml").read_text(encoding="utf-8")
    settings = settings.replace('pythonpath = ["generator", "."]', 'pythonpath = ["src", "."]')
    wanted = json.dumps([re.sub("^generator/", "src/", each) for each in patterns])
    settings += CONFIG.format(patterns=wanted, tests=json.dumps(tests))
    (copy / "pyproject.toml").write_text(settings, encoding="utf-8")
    mutmut = [sys.executable, "-m", "mutmut"]
    run = [*mutmut, "run", "--max-children", "2"]
    with (copy / "mutmut.log").open("w", encoding="utf-8") as log:
        subprocess.run(run, cwd=copy, stdout=log, stderr=log, check=True)
    subprocess.run([*mutmut, "export-cicd-stats"], cwd=copy, check=True, capture_output=True)
    counts: dict[str, int] = json.loads((copy / "mutants/mutmut-cicd-stats.json").read_text(encoding="utf-8"))
    return counts


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
