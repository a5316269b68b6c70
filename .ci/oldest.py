"""Prints the project's own dependencies pinned to the oldest versions that pyproject.toml promises."""

import re
import tomllib
from pathlib import Path

project = tomllib.loads((Path(__file__).parents[1] / "pyproject.toml").read_text(encoding="utf-8"))["project"]
for requirement in project["dependencies"]:
    found = re.match(r"([\w.-]+)>=([\w.]+)", requirement)
    if found:
        print(f"{found[1]}=={found[2]}")
