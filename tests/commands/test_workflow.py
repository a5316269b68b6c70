"""The workflow for a book's repository, with its commands run as written; and the hook."""

import os
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from tests.yaml_file import yaml_file

from checks.small_book import BLEND_FILE, SmallBook
from commands.git import commit, git

ROOT = Path(__file__).parents[2]
needs_bash = pytest.mark.skipif(shutil.which("bash") is None, reason="the workflow's steps are run by bash")
WORKFLOW = yaml_file(ROOT / ".github/workflows/book.yml")
STEPS = [step["run"] for step in WORKFLOW["jobs"]["check"]["steps"] if "run" in step]


@pytest.fixture
def change(tmp_path: Path) -> Path:
    """A repository with the small book and the project's pages, of one commit."""
    house = tmp_path / "house"
    SmallBook(house / "recipes")
    shutil.copytree(ROOT / "docs", house / "docs")
    shutil.copy(ROOT / "mkdocs.yml", house)
    git(tmp_path, "init", "-q", "house")
    commit(house, tag="base")
    return house


def run_steps(folder: Path) -> list[subprocess.CompletedProcess[str]]:
    """Each step that runs bowlbook, in order; ``bowlbook`` is this environment's."""
    bowlbook = f'{shlex.quote(sys.executable)} -c "from bowlbook.commands import main; main()"'
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "generator"), "BASE": "base"}
    return [
        subprocess.run(
            ["bash", "-euo", "pipefail", "-c", step.replace("bowlbook", bowlbook, 1)],
            cwd=folder,
            env=environment,
            capture_output=True,
            text=True,
        )
        for step in STEPS
        if step.startswith("bowlbook ")
    ]


@needs_bash
@pytest.mark.long
def test_a_sound_change_is_reported_and_built(change: Path) -> None:
    path = change / "recipes" / BLEND_FILE
    text = (
        path.read_text("utf-8")
        .replace("ratio: 1:2", "ratio: 1:1.5")
        .replace("on: 2026-10-02", "on: 2026-11-20")
    )
    path.write_text(text, encoding="utf-8")
    checked, commented, built = run_steps(change)
    assert (checked.returncode, checked.stdout) == (0, "")
    assert commented.returncode == 0
    assert "peroxide" in (change / "bench-changes.md").read_text(encoding="utf-8")
    assert built.returncode == 0, built.stderr
    assert (change / "site/index.html").is_file() and not (change / "site/reports/costs").exists()


@pytest.mark.long
@needs_bash
def test_a_mistake_is_on_its_line(change: Path) -> None:
    path = change / "recipes" / BLEND_FILE
    path.write_text(path.read_text("utf-8").replace("ratio: 1:2", "ratio: 1:9"), encoding="utf-8")
    checked, commented, built = run_steps(change)
    assert checked.returncode == 1
    assert f"::error file=recipes/{BLEND_FILE},line=" in checked.stdout
    assert "title=ratio-out-of-range" in checked.stdout
    assert built.returncode == 1 and not (change / "site").exists()
    for each in (checked, commented, built):
        assert "Traceback" not in each.stderr


def test_what_runs_a_strangers_change_may_write_nothing() -> None:
    """The check runs a pull request's own text with reading rights; what may write runs none of it."""
    assert WORKFLOW["permissions"] == {"contents": "read"}
    jobs = WORKFLOW["jobs"]
    assert "permissions" not in jobs["check"]
    for name in ("comment", "publish"):
        uses = [step.get("uses", "") for step in jobs[name]["steps"]]
        assert not any(each.startswith("actions/checkout") for each in uses)
        assert jobs[name]["needs"] == "check"
    for job in jobs.values():  # nothing an outsider writes is put into a command
        assert all("${{" not in step.get("run", "") for step in job["steps"])


def test_the_hook_checks_the_book() -> None:
    (hook,) = yaml_file(ROOT / ".pre-commit-hooks.yaml")
    assert hook["entry"] == "bowlbook check" and hook["pass_filenames"] is False
    assert hook["files"] == "^recipes/" and hook["language"] == "python"
