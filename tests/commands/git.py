"""git for tests: a repository with one author, apart from the user's own configuration."""

import os
import subprocess
from pathlib import Path

IDENTITY = {"GIT_AUTHOR_NAME": "A", "GIT_AUTHOR_EMAIL": "a@example.org", "GIT_CONFIG_GLOBAL": os.devnull}
IDENTITY |= {"GIT_COMMITTER_NAME": "A", "GIT_COMMITTER_EMAIL": "a@example.org"}


def git(folder: Path, *words: str) -> None:
    """Run git in a folder."""
    command = ["git", "-C", str(folder), *words]
    subprocess.run(command, check=True, capture_output=True, env={**os.environ, **IDENTITY})


def commit(folder: Path, *, tag: str | None = None) -> None:
    """Commit everything in a folder, and tag it where a tag is given."""
    git(folder, "add", ".")
    git(folder, "commit", "-qm", "A change")
    if tag is not None:
        git(folder, "tag", tag)
