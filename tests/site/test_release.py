"""A build beside a git repository that is not as expected: it is built, and what is left out is said."""

import os

import pytest
from small_site import build, house_config

from checks.small_book import BLEND_FILE, SmallBook
from commands.git import commit, git
from systems import needs_links


@pytest.fixture
def tagged(book: SmallBook) -> SmallBook:
    """The small book, its newest tag with a link among the blends, and a change since."""
    link = book.root / "blends" / "away.yml"
    link.symlink_to("/etc/hostname")
    git(book.root, "init", "-q", ".")
    commit(book.root, tag="spring")
    link.unlink()
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:1.5")
    return book


@needs_links
def test_a_link_in_the_newest_tag(tagged: SmallBook) -> None:
    """Named in a warning; what changed since is on the page of changes all the same."""
    result = build(tagged, house_config(tagged))
    assert result.exit_code == 0, result.output
    assert "spring: blends/away.yml was left out: it is a link" in result.stderr
    pages = (tagged.root.parent / "site" / "changes").rglob("index.html")
    assert any("1:1.5" in path.read_text(encoding="utf-8") for path in pages)


@needs_links
def test_a_repository_of_another_user(tagged: SmallBook, monkeypatch: pytest.MonkeyPatch) -> None:
    """Git reads none of it, which its own tests bring about with this variable."""
    monkeypatch.setenv("GIT_TEST_ASSUME_DIFFERENT_OWNER", "1")
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", os.devnull)
    result = build(tagged, house_config(tagged))
    assert result.exit_code == 0, result.output
    assert "Recent changes: nothing to compare with." in result.stderr
    assert "belongs to another user" in result.stderr
