"""Makes docs/reference/api.md from the docstrings of the public functions.

Run it after a change of those: ``python -m tests.api.api_page``.
"""

import ast
import inspect
import re
from pathlib import Path

from bowlbook import api

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "api.md"
LEAD = """# From Python

The same figures as on the site and the command line, for a script, a notebook or another program. Amounts
and names are given as a person writes them. Every figure is exact, a `fractions.Fraction`; what is rounded
says so. Nothing is written, not even a cache.

A bowl that can be computed is not a bowl that is safe: the maker's instructions, patch and strand tests, and
local rules come before this book.

<div class="bb-folds bb-findable"></div>
"""


def public() -> list[ast.FunctionDef | ast.ClassDef]:
    """The public functions and errors, in the order of the module."""
    import bowlbook

    nodes = ast.parse(inspect.getsource(api)).body
    return [
        each
        for each in nodes
        if isinstance(each, ast.FunctionDef | ast.ClassDef) and each.name in bowlbook.__all__
    ]


def signature(node: ast.FunctionDef | ast.ClassDef) -> str:
    """The lines of a definition before its docstring."""
    lines = inspect.getsource(api).splitlines()
    return "\n".join(lines[node.lineno - 1 : node.body[0].lineno - 1]).rstrip(":")


def text_of(node: ast.FunctionDef | ast.ClassDef) -> str:
    """A docstring as Markdown: its example in a block of code."""
    text = re.sub(r"``(.+?)``", r"`\1`", ast.get_docstring(node) or "")
    words, mark, example = text.partition("\n\n>>> ")
    return words + (f"\n\n```python\n>>> {example}\n```" if mark else "")


def api_page() -> str:
    """The whole page."""
    sections = [
        f"## {each.name}\n\n```python\n{signature(each)}\n```\n\n{text_of(each)}\n" for each in public()
    ]
    return "\n".join([LEAD, *sections])


if __name__ == "__main__":
    PAGE.write_text(api_page(), encoding="utf-8", newline="\n")
