"""unreviewed-change: what is mixed differs from the last release under the review stamp of then."""

import os
from pathlib import Path

import pytest

from bowlbook.book.released import release_of
from checks.small_book import BLEND_FILE, CLAY_FILE, POWDER_FILE, TECHNIQUE_FILE, SmallBook
from commands.git import commit, git
from commands.run import run

MARK = "«unreviewed-change?»"


@pytest.fixture
def released(book: SmallBook) -> SmallBook:
    """The small book, released as spring."""
    git(book.root.parent, "init", "-q")
    commit(book.root.parent, tag="spring")
    return book


def codes(book: SmallBook) -> list[str]:
    return [each.code for each in book.judged()]


def test_as_it_was_released(released: SmallBook) -> None:
    released.shows(findings=0)


@pytest.mark.parametrize(
    "old, new",
    [
        ("ratio: 1:2", "ratio: 1:1.5"),
        ("product: developer-20", "product: developer-20, also: [other]"),
        ("- {product: powder, parts: 1}", "- {product: powder, parts: 2}"),
    ],
)
def test_a_blend_mixed_in_another_way(released: SmallBook, old: str, new: str) -> None:
    released.write("products/other.yml", "name: Other\nkind: developer\nvolume: 10\nkept_for: Hairlines.\n")
    released.edit(BLEND_FILE, old, new)
    (finding,) = released.judged()
    assert (finding.code, finding.severity) == ("unreviewed-change", "warning")
    assert finding.message.startswith("Changed since spring, and the review is of then: ")


def test_the_finding_stands_at_what_changed(released: SmallBook) -> None:
    released.edit(BLEND_FILE, "developer: {ratio: 1:2", f"developer: {MARK}{{ratio: 1:1.5")
    released.edit(BLEND_FILE, "  - {product: clay, parts: 3}", f"  {MARK}- {{product: clay, parts: 2}}")
    found = released.shows(findings=2)
    assert "developer, ratio 1:2 before, 1:1.5 now" in found[1].message


STAMPS = ["{on: 2026-11-20, by: Ines}", "{on: 2026-10-02, by: Ines, change: Less developer.}"]


@pytest.mark.parametrize("stamp", STAMPS)
def test_a_new_stamp(released: SmallBook, stamp: str) -> None:
    released.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:1.5")
    released.add(BLEND_FILE, f"reviewed: {stamp}\n")
    released.shows(findings=0)


def test_an_older_stamp_is_none(released: SmallBook) -> None:
    released.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:1.5")
    released.add(BLEND_FILE, "reviewed: {on: 2026-10-01, by: Ines}\n")
    assert codes(released) == ["unreviewed-change"]


def test_what_means_the_same_or_is_not_mixed_may_change(released: SmallBook) -> None:
    released.edit(BLEND_FILE, "ratio: 1:2", "ratio: 2:4")
    released.edit(BLEND_FILE, "parts: 3}", "parts: 6}")
    released.edit(BLEND_FILE, "parts: 1}", "parts: 2}")
    released.add(BLEND_FILE, "notes: More on it.\n")
    released.edit(TECHNIQUE_FILE, "Paint from the ends", "Paint thinly from the ends")
    released.shows(findings=0)


def test_limits_of_products_and_times_of_techniques(released: SmallBook) -> None:
    released.edit(CLAY_FILE, "to: 1:2.5", "to: 1:3")
    released.add(POWDER_FILE, "developer_limit: 30 volume\n")
    released.edit(TECHNIQUE_FILE, "{minutes: 35 minutes", "{minutes: 30 minutes")
    said = {Path(each.place.path).stem: each.message.partition("then: ")[2] for each in released.judged()}
    assert said == {
        "clay": "mixing ratio, to 1:2.5 before, 1:3 now.",
        "powder": "developer limit new, 30 volume.",
        "painting": "processing, minutes 35 minutes before, 30 minutes now.",
    }
    for path in (CLAY_FILE, POWDER_FILE, TECHNIQUE_FILE):
        released.add(path, "reviewed: {on: 2026-11-20, by: Ines}\n")
    released.shows(findings=0)


def rename(book: SmallBook, path: str, to: str) -> None:
    text = book.texts.pop(path)
    (book.root / path).unlink()
    book.write(f"{path.split('/')[0]}/{to}.yml", f"{text}formerly: [{Path(path).stem}]\n")


def test_a_renamed_blend_is_held_against_its_former_file(released: SmallBook) -> None:
    rename(released, BLEND_FILE, "clay-3-1")
    for path in (TECHNIQUE_FILE, "situations/fine-hair.yml"):
        released.edit(path, "blend: soft-clay", "blend: clay-3-1")
    released.shows(findings=0)
    released.edit("blends/clay-3-1.yml", "developer: {ratio: 1:2", f"developer: {MARK}{{ratio: 1:1.5")
    released.shows(findings=1)


def test_a_renamed_product_in_a_blend_is_no_change(released: SmallBook) -> None:
    rename(released, POWDER_FILE, "white")
    released.edit(BLEND_FILE, "product: powder", "product: white")
    released.shows(findings=0)


def test_what_was_committed_after_the_release_counts_too(released: SmallBook) -> None:
    released.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:1.5")
    git(released.root.parent, "commit", "-qam", "Less")
    assert codes(released) == ["unreviewed-change"]
    git(released.root.parent, "tag", "summer")
    released.shows(findings=0)


def test_without_a_release_nothing_is_said(book: SmallBook, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = book.root.parent
    assert release_of(book.root) is None
    git(folder, "init", "-q")
    assert release_of(book.root) is None
    git(folder, "add", ".")
    git(folder, "commit", "-qm", "A change")
    assert release_of(book.root) is None
    git(folder, "tag", "spring")
    assert release_of(book.root) is not None
    monkeypatch.setenv("PATH", os.devnull)  # no git
    assert release_of(book.root) is None
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:1.5")
    book.shows(findings=0)


def test_a_new_tag_on_the_same_files_is_seen_by_the_cache(
    released: SmallBook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path / "kept"))
    released.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:1.5")
    assert "unreviewed-change" in run("check", recipes=released.root).stdout
    git(released.root.parent, "commit", "-qam", "Less")
    git(released.root.parent, "tag", "summer")
    assert "unreviewed-change" not in run("check", recipes=released.root).stdout
