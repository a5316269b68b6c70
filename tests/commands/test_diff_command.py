"""``bowlbook diff`` against a real git repository: one ratio, one price, one rename, in plain sentences."""

import json
import os
import re
import shutil
from pathlib import Path

import pytest
from tests.site.small_site import house_config

from checks.small_book import BLEND_FILE, FOIL_FILE, HOUSE_FILE, SmallBook
from commands.git import commit, git
from commands.run import refused, run
from systems import needs_links


@pytest.fixture
def house(recipes: Path, tmp_path: Path) -> Path:
    """The demo book in a repository of its own, in a sub-folder, with one commit and a tag."""
    folder = tmp_path / "house"
    shutil.copytree(recipes, folder / "books" / "recipes")
    git(tmp_path, "init", "-q", "house")
    commit(folder, tag="spring")
    return folder / "books" / "recipes"


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert text.count(old) >= 1
    path.write_text(text.replace(old, new), encoding="utf-8")


def changed(house: Path) -> Path:
    """One ratio, one price, one rename."""
    edit(house / "blends" / "cool-foil-coarse.yml", "ratio: 1:2", "ratio: 1:1.5")
    edit(house / "products" / "honey-toner.yml", "price: 9.20", "price: 12.20")
    old, new = house / "blends" / "foil-thick.yml", house / "blends" / "thick-packets.yml"
    old.rename(new)
    edit(new, "reviewed:", "formerly: [foil-thick]\nreviewed:")
    edit(house / "techniques" / "thick-slices.yml", "foil-thick", "thick-packets")
    edit(house / "situations" / "thick-level-3-blonde.yml", "foil-thick", "thick-packets")
    edit(house / "situations" / "coarse-level-3-to-9.yml", "foil-thick", "thick-packets")
    return house


def test_nothing_changed(house: Path) -> None:
    result = run("diff", "HEAD", recipes=house)
    assert (result.exit_code, result.stdout) == (0, "Nothing changed at the bench.\n")


def test_ratio_price_and_rename(house: Path) -> None:
    """By hand: 0.5 oz at 1:1.5 takes 0.75 of developer, the scale ends at 1.25; 6 x 0.75 / 1.25 = 3.6 %."""
    result = run("diff", "spring", "--json", recipes=changed(house))
    assert result.exit_code == 0, result.stderr
    found = {(each["kind"], each["id"]): each for each in json.loads(result.stdout)}
    facts = found["blend", "cool-foil-coarse"]["facts"]
    foil = {fact["what"]: (fact["before"], fact["after"]) for fact in facts}
    assert foil["developer, ratio"] == ("1:2", "1:1.5")
    assert foil["weigh for 0.5 oz"] == ("1.00 Developer, 20 volume", "0.75 Developer, 20 volume")
    assert foil["scale shows for 0.5 oz"] == ("0.33, 0.50, 1.50", "0.33, 0.50, 1.25")
    assert foil["peroxide in 0.5 oz"] == ("4.00 %", "3.60 %")
    known = found["blend", "cool-foil-coarse"]["known_by"]
    assert {"kind": "technique", "id": "triangle-in-two-foils"} in known
    assert {"kind": "class", "id": "open-air-or-foil"} in known
    renamed = found["blend", "thick-packets"]
    assert (renamed["was"], renamed["state"]) == ("foil-thick", "changed")
    assert [fact["what"] for fact in renamed["facts"]] == ["id"]
    assert ("technique", "thick-slices") not in found  # following a rename is no change
    toner = {
        fact["what"]: (fact["before"], fact["after"]) for fact in found["product", "honey-toner"]["facts"]
    }
    assert toner == {"pack, price": ("9.20", "12.20")}
    gloss = {fact["what"] for fact in found["blend", "honey-gloss"]["facts"]}
    assert gloss and all(what.startswith("cost at ") for what in gloss)
    assert {key for key in found if key[0] == "blend"} == {
        ("blend", "cool-foil-coarse"),
        ("blend", "thick-packets"),
        ("blend", "honey-gloss"),
    }


def test_words(house: Path) -> None:
    text = run("diff", "spring", recipes=changed(house)).stdout
    assert "Blend “Strong foil for thick slices” (was foil-thick)" in text
    assert "scale shows for 0.5 oz: 0.33, 0.50, 1.50 → 0.33, 0.50, 1.25" in text
    who = text.split("Who should know:\n")[1]
    assert "Techniques: Thick slices, back to back, Triangle in two foils" in who
    assert "Curl by curl" not in who  # touched by a price only


def test_new_gone_and_private(house: Path) -> None:
    shutil.copy(house / "products" / "foil-long.yml", house / "products" / "foil-wide.yml")
    edit(house / "products" / "foil-wide.yml", "name: Foil, long", "name: Foil, wide")
    (house / "classes" / "weighing-a-bowl.yml").unlink()
    edit(house / "classes" / "open-air-or-foil.yml", "handout: |", "private: Her secret.\nhandout: |")
    text = run("diff", "HEAD", recipes=house).stdout
    assert "Product “Foil, wide”: new" in text
    assert "Class notes “Weighing a bowl that tells the truth”: gone" in text
    assert "private: changed" in text and "secret" not in text


def test_a_comment_carries_no_markup_of_an_author(house: Path) -> None:
    edit(house / "blends" / "honey-gloss.yml", "summary: ", "summary: '**x** @everyone [a](b) ")
    path = house / "blends" / "honey-gloss.yml"
    edit(path, "came up hollow.", "came up hollow.'")
    text = run("diff", "HEAD", "--comment", recipes=house).stdout
    assert "### At the bench, since HEAD" in text
    body = re.sub(r"</?(details|summary)>", "", text)
    assert not re.search(r"[@<>\[\]`]|\*\*x", body)
    assert "&#64;everyone" in text


@pytest.mark.parametrize("revision", ["nope", "--output=x", "HEAD:books", "HEAD~5"])
def test_revisions_that_are_none(house: Path, revision: str) -> None:
    assert "git knows no revision" in refused("diff", "--", revision, recipes=house)


def test_without_a_repository_or_a_book_in_it(recipes: Path, tmp_path: Path) -> None:
    shutil.copytree(recipes, tmp_path / "recipes")
    assert "not in a git repository" in refused("diff", "HEAD", recipes=tmp_path / "recipes")
    git(tmp_path, "init", "-q", ".")
    git(tmp_path, "commit", "-q", "--allow-empty", "-m", "No book yet")
    assert "there is no book" in refused("diff", "HEAD", recipes=tmp_path / "recipes")


def released(folder: Path) -> SmallBook:
    """The small book with a configuration of a house's own, in a repository whose one commit has a tag."""
    book = SmallBook(folder / "recipes")
    house_config(book)
    git(folder, "init", "-q")
    commit(folder, tag="spring")
    return book


def test_the_page_of_the_last_release(tmp_path: Path) -> None:
    """By hand: 1 oz at 3:1 is 0.75 and 0.25; at 1:2 the scale ends at 3.00, at 1:1.5 at 2.50."""
    book = released(tmp_path)
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:1.5")
    asked = ("--config", str(tmp_path / "mkdocs.yml"), "--site", str(tmp_path / "site"))
    result = run("build", *asked, recipes=book.root)
    assert result.exit_code == 0, result.output
    page = (tmp_path / "site" / "changes" / "release" / "index.html").read_text(encoding="utf-8")
    assert "Since spring" in page
    assert "scale shows for 1 oz: 0.75, 1.00, 3.00 → 0.75, 1.00, 2.50" in page
    assert "release/" in (tmp_path / "site" / "changes" / "index.html").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "edit, audience",
    [
        pytest.param(("", ""), "public", id="nothing", marks=pytest.mark.long),
        pytest.param((FOIL_FILE, "price: 19.00"), "public", id="a price"),
        pytest.param((HOUSE_FILE, "An invented house"), "team", id="the notice", marks=pytest.mark.long),
        pytest.param(("", ""), "team", id="nothing, team", marks=pytest.mark.long),
        pytest.param((FOIL_FILE, "price: 19.00"), "team", id="a price, team", marks=pytest.mark.long),
        pytest.param(
            (HOUSE_FILE, "An invented house"), "public", id="the notice, public", marks=pytest.mark.long
        ),
    ],
)
def test_a_site_with_nobody_who_should_know(tmp_path: Path, edit: tuple[str, str], audience: str) -> None:
    """As on the very day of a release: the site is built all the same."""
    book = released(tmp_path)
    if edit[0]:
        book.edit(*edit, f"{edit[1]}1")
    asked = ("--config", str(tmp_path / "mkdocs.yml"), "--site", str(tmp_path / "site"))
    result = run("build", *asked, "--audience", audience, recipes=book.root)
    assert result.exit_code == 0, result.output


@needs_links
def test_a_link_in_the_old_book_and_a_repository_of_another_user(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Both print a sentence: the first with the answer, the second instead of one."""
    book = SmallBook(tmp_path / "house" / "recipes")
    (book.root / "blends" / "away.yml").symlink_to("/etc/hostname")
    git(tmp_path, "init", "-q", "house")
    commit(book.root, tag="spring")
    (book.root / "blends" / "away.yml").unlink()
    result = run("diff", "HEAD", recipes=book.root)
    assert (result.exit_code, result.stdout) == (0, "Nothing changed at the bench.\n")
    assert result.stderr.startswith("HEAD: recipes/blends/away.yml was left out: it is a link")
    monkeypatch.setenv("GIT_TEST_ASSUME_DIFFERENT_OWNER", "1")
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", os.devnull)
    said = refused("diff", "HEAD", recipes=book.root)
    assert "belongs to another user" in said and "knows no revision" not in said
