"""Where each copy's codes, canonical links and map lead: the team's to the team's address, and so on."""

import re
from pathlib import Path

import pytest
from small_site import house_config

from bowlbook.checks.judge import judge
from bowlbook.site.engine import BuildFailed, build_into
from checks.small_book import DAY, SmallBook

TEAM, PUBLIC = "https://team.salon.example/book/", "https://book.salon.example/"
LEADS = re.compile(r'(?:https://[a-z.]*salon\.example/[^"<\s]*)')


def built(folder: Path, audience: str | None, settings: str, beneath: str = "") -> tuple[set[str], list[str]]:
    """The addresses that a copy's pages, cards and map lead to, cut to a page's own, and the warnings."""
    book = SmallBook(folder / "recipes")
    config = house_config(book)
    text = config.read_text(encoding="utf-8").replace("}}]", f"{settings}}}}}]")
    config.write_text(f"site_url: {TEAM}\n{text}", encoding="utf-8")
    warnings: list[str] = []
    build_into(
        folder / "site", config, judge(book.root, DAY), warnings.append, audience=audience, beneath=beneath
    )
    found = set()
    for name in ("blends/soft-clay/index.html", "blends/soft-clay/card/index.html", "sitemap.xml"):
        text = (folder / "site" / name).read_text(encoding="utf-8")
        found |= {each for each in LEADS.findall(text) if "soft-clay" in each}
    return found, warnings


@pytest.mark.parametrize(
    "audience, settings, base",
    [
        ("team", f", public_url: '{PUBLIC}'", TEAM),
        pytest.param("public", f", public_url: '{PUBLIC}'", PUBLIC, marks=pytest.mark.long),
        # the configuration itself says whose address that is
        pytest.param(None, ", audience: public", TEAM, marks=pytest.mark.long),
        pytest.param(None, "", TEAM, marks=pytest.mark.long),
        pytest.param("public", f", public_url: '{PUBLIC.rstrip('/')}'", PUBLIC, marks=pytest.mark.long),
        pytest.param(None, f", audience: public, public_url: '{PUBLIC}'", PUBLIC, marks=pytest.mark.long),
    ],
)
def test_each_copy_leads_to_its_own_address(
    tmp_path: Path, audience: str | None, settings: str, base: str
) -> None:
    found, warnings = built(tmp_path, audience, settings)
    assert found == {f"{base}blends/soft-clay/"}
    assert warnings == []


def test_a_book_of_a_group_is_beneath_the_publics_address_too(tmp_path: Path) -> None:
    found, _ = built(tmp_path, "public", f", public_url: '{PUBLIC}'", "north salon")
    assert found == {f"{PUBLIC}north%20salon/blends/soft-clay/"}


def test_the_public_is_never_sent_to_the_teams_address(tmp_path: Path) -> None:
    found, warnings = built(tmp_path, "public", "")
    assert found == set()
    assert len(warnings) == 1 and "public_url" in warnings[0]
    pages = (tmp_path / "site").rglob("*.html")
    assert not any("team.salon.example" in page.read_text(encoding="utf-8") for page in pages)


def test_what_is_no_address_is_refused(tmp_path: Path) -> None:
    with pytest.raises((BuildFailed, SystemExit)):
        built(tmp_path, "public", ", public_url: 'book of the house'")
