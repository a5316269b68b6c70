"""A folder knows whose copy it holds: a team's and a public's never take each other's place unasked."""

from pathlib import Path

import pytest
from small_site import bytes_of, config_for, python, small_site

from bowlbook.site.manifest import MANIFEST, audience_in, other_copy
from bowlbook.site.publish import NotPublished, publish
from checks.small_book import SmallBook

OTHER = {"team": "public", "public": "team"}


def without_record(site: Path) -> None:
    """As a folder was left by a version that kept no record."""
    listed = (site / MANIFEST).read_text(encoding="utf-8").splitlines(keepends=True)
    (site / MANIFEST).write_text("".join(listed[1:]), encoding="utf-8")


def test_what_a_folder_says(tmp_path: Path) -> None:
    assert audience_in(tmp_path / "none") is audience_in(tmp_path) is None
    small_site(audience="public")(tmp_path)
    assert audience_in(tmp_path) == "public"
    assert other_copy(tmp_path, "public") is None
    assert other_copy(tmp_path, "team") == f"{tmp_path} holds the public's copy, and this one is the team's."
    without_record(tmp_path)
    assert audience_in(tmp_path) == "unknown"
    for audience in OTHER:
        assert "does not say whose copy it holds" in (other_copy(tmp_path, audience) or "")


@pytest.mark.parametrize("audience", OTHER)
@pytest.mark.parametrize("record", [True, False])
def test_the_other_copy_stays_unless_it_is_to_be_replaced(
    tmp_path: Path, audience: str, record: bool
) -> None:
    site = tmp_path / "house" / "site"
    publish(small_site(audience=OTHER[audience]), site)
    if not record:
        without_record(site)
    before = bytes_of(site)
    with pytest.raises(NotPublished, match="or replace it with --replace"):
        publish(small_site("second", audience=audience), site)
    assert bytes_of(site) == before
    assert [path.name for path in site.parent.iterdir()] == ["site"]
    publish(small_site("second", audience=audience), site, replace=True)
    assert audience_in(site) == audience and b"second" in (site / "index.html").read_bytes()
    publish(small_site("third", audience=audience), site)


def test_a_copy_that_was_published_meanwhile(tmp_path: Path) -> None:
    """Two builds at once, one for each audience: the first to end is kept."""
    site = tmp_path / "site"

    def slow(folder: Path) -> None:
        small_site(audience="team")(folder)
        publish(small_site(audience="public"), site)

    with pytest.raises(NotPublished, match="holds the public's copy"):
        publish(slow, site)
    assert audience_in(site) == "public"


@pytest.mark.long
def test_plain_mkdocs_and_the_command_keep_one_record(book: SmallBook) -> None:
    config, site = config_for(book), book.root.parent / "site"
    folder = config.parent
    publish(small_site(audience="public"), site)
    before = bytes_of(site)
    plain = python("-m", "mkdocs", "build", cwd=folder)
    assert plain.returncode == 1 and "Traceback" not in plain.stderr
    assert "holds the public's copy, and this one is the team's." in plain.stderr
    assert "set BOWLBOOK_REPLACE=1 to replace it." in plain.stderr
    assert bytes_of(site) == before
    assert python("-m", "mkdocs", "build", cwd=folder, BOWLBOOK_REPLACE="1").returncode == 0
    assert audience_in(site) == "team"
    assert other_copy(site, "public") == f"{site} holds the team's copy, and this one is the public's."
    words = ("-m", "bowlbook.commands", "build", "--audience", "public", "--replace")
    assert python(*words, cwd=folder).returncode == 0
    assert audience_in(site) == "public"
