"""Judged cases and records that tests read: some are large, and the parser in C is ten times as quick."""

import functools
from pathlib import Path
from typing import Any

import yaml


@functools.cache
def yaml_file(path: Path) -> Any:
    """What a YAML file holds; the same object to everybody who asks, so nobody may change it."""
    return yaml.load(path.read_text(encoding="utf-8"), yaml.CSafeLoader)
