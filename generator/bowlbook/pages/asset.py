"""The site's own scripts, styles and icons in one folder, and its data: each named after its content."""

import hashlib
import json
import re
from functools import cache
from pathlib import Path

ASSETS = Path(__file__).parent / "assets"


STYLE = "bowlbook.css"
STYLES = (
    *("values", "ground", "frame", "parts", "lists", "bowl"),
    *("pick", "bench", "steps", "sheets", "timers", "drawings"),
)
"""What the one style sheet of a site is put together from, in this order: the later outweighs the earlier."""
COMMENT = re.compile(rb"/\*.*?\*/", re.S)


@cache
def asset_paths() -> tuple[Path, ...]:
    """Every script, icon and style that is published as it is, sorted by name.

    Their source is ordered by the page that asks for them, but they are published side by side in one folder:
    a script imports another as ``./name.js``, whichever page it belongs to (``jsconfig.json`` tells editors).
    """
    files = [path for path in ASSETS.glob("*/*") if path.parent.name != "look"]
    # Side by side in one folder, the second of two files of one name would replace the first.
    assert len({path.name for path in files}) == len(files), "two assets have one name"
    return tuple(sorted(files, key=lambda path: path.name))


@cache
def assets() -> dict[str, bytes]:
    """What is published beside the pages, by name.

    A phone fetches one style sheet, whatever its source, and without its comments.
    """
    style = b"".join((ASSETS / "look" / f"{name}.css").read_bytes() for name in STYLES)
    return {STYLE: COMMENT.sub(b"", style), **{path.name: path.read_bytes() for path in asset_paths()}}


@cache
def asset_folder() -> str:
    """The folder that the assets are served from, as ``assets/1a2b3c4d5e``.

    A page asks for the very scripts that it was made with, so that old and new never meet.
    """
    digest = hashlib.sha256()
    for name, content in assets().items():
        digest.update(name.encode() + b"\0" + content + b"\0")
    return f"assets/{digest.hexdigest()[:10]}"


def compact(data: object) -> str:
    """Data as JSON without a space too many."""
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))


def data_name(stem: str, text: str) -> str:
    """A data file's name after its content, as ``pick-1a2b3c4d5e.json``."""
    return f"{stem}-{hashlib.sha256(text.encode()).hexdigest()[:10]}.json"
