"""What is left out of an everyday run is run by ``.ci/run``: each such test has a mark that it asks for."""

import re
from pathlib import Path

TESTS = Path(__file__).parents[1]
SAYS = re.compile(r"environ\.get\(\"BOWLBOOK_LONG\"")
MARKED = re.compile(r"mark\.(?:long|more)\b|with_long\(|\bseeds\(")


def test_a_test_that_tries_more_in_the_long_run_is_run_there() -> None:
    files = {path: path.read_text(encoding="utf-8") for path in TESTS.rglob("test_*.py")}
    asking = {path for path, text in files.items() if SAYS.search(text)} - {Path(__file__)}
    assert len(asking) > 10
    assert {path.name for path in asking if not MARKED.search(files[path])} == set()
    assert '-m "long or more"' in (TESTS.parent / ".ci" / "run").read_text(encoding="utf-8")
