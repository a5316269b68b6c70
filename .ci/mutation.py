"""Mutation testing of the rooms that reckon and read: how many wrong programs the tests tell from ours.

``python .ci/mutation.py [PATTERN …]`` needs ``pip install -e ".[test,mutation]"`` and changes a copy in
``build/mutation``; a pattern is a file such as ``generator/figures/rounding.py``. Ends with 1 below `WANTED`.
"""

import json
import shutil
import subprocess
import sys
from pathlib import Path

WANTED = 95
"""Per cent of mutants that must be found out."""
ROOMS = ["generator/figures/*.py", "generator/reading/*.py"]
TESTS = [
    *(f"tests/{room}" for room in ("figures", "reading", "reference", "cases", "checks", "book")),
    *(f"tests/commands/test_{name}_command.py" for name in ("mix", "match", "plan", "kit", "prices", "diff")),
]
CONFIG = """
[tool.mutmut]
source_paths = ["generator"]
only_mutate = {patterns}
also_copy = ["generator", "recipes", "docs", "mkdocs.yml", "README.md", "DEVELOPERS.md"]
pytest_add_cli_args = ["-o", "addopts=", "-m", "not browser and not long", "-p", "no:xdist"]
pytest_add_cli_args_test_selection = {tests}
"""


def main(patterns: list[str]) -> int:
    """Copy what git knows, run mutmut over it, and say what came of it."""
    copy = Path("build/mutation")
    shutil.rmtree(copy, ignore_errors=True)
    for name in subprocess.check_output(["git", "ls-files"], text=True).splitlines():
        (copy / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(name, copy / name)
    with (copy / "pyproject.toml").open("a", encoding="utf-8") as file:
        file.write(CONFIG.format(patterns=json.dumps(patterns), tests=json.dumps(TESTS)))
    mutmut = [sys.executable, "-m", "mutmut"]
    run = [*mutmut, "run", "--max-children", "2"]
    with (copy / "mutmut.log").open("w", encoding="utf-8") as log:
        subprocess.run(run, cwd=copy, stdout=log, stderr=log, check=True)
    subprocess.run([*mutmut, "export-cicd-stats"], cwd=copy, check=True, capture_output=True)
    told = json.loads((copy / "mutants/mutmut-cicd-stats.json").read_text(encoding="utf-8"))
    found = told["killed"] + told["timeout"]
    share = 100 * found / told["total"]
    rest = f"{told['survived']} not, {told['no_tests']} untried"
    print(f"{told['total']} mutants, {found} found out ({share:.1f} %), {rest}")
    return 0 if share >= WANTED else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:] or ROOMS))
