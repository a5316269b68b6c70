"""What ``new`` and ``new book`` share: the texts that a new file begins with, and asking a person."""

import json
import re
import sys
from pathlib import Path

STARTS = Path(__file__).parent / "starts"


def is_interactive() -> bool:
    """Whether a person can answer questions: input and output are terminals."""
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))


def scalar(text: str) -> str:
    """A name as a YAML scalar: plain where it is certain to read back unchanged, else in quotes."""
    certain = re.fullmatch(r"[A-Za-z][\w ,()%'-]*", text) and text.lower() not in ("null", "true", "false")
    return text if certain else json.dumps(text, ensure_ascii=False)
