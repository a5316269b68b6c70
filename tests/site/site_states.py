"""Which of two known sites stands in a folder, to the byte; or that it is neither."""

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from small_site import bytes_of, small_site

from bowlbook.site.publish import NotPublished, publish


@cache
def small_site_bytes(word: str) -> dict[str, bytes]:
    """Every file of the small site with that word."""
    with TemporaryDirectory() as folder:
        small_site(word)(Path(folder))
        return bytes_of(Path(folder))


def state_of(site: Path) -> str:
    """old, new, none or mixed: the small site with the word first, with second, no site, anything else."""
    if not site.exists():
        return "none"
    found = bytes_of(site)
    return {"first": "old", "second": "new"}.get(
        next((word for word in ("first", "second") if found == small_site_bytes(word)), ""), "mixed"
    )


def after_clearing_up(site: Path) -> str:
    """The state once another build has begun, and failed."""

    def fails(folder: Path) -> None:
        raise NotPublished("for this test")

    with pytest.raises(NotPublished, match="for this test"):
        publish(fails, site)
    return state_of(site)
