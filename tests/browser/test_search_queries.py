"""What people in a salon type, with the pages judged right beforehand, put to the phone's own script."""

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page
from tests.browser.conftest import Watched
from tests.yaml_file import yaml_file

QUERIES = Path(__file__).parents[1] / "search"

ANSWERS = """async ([scripts, data, queries]) => {
  const { find, prepare } = await import(scripts + "find.js");
  const names = await (await fetch(data + "names.json")).json();
  const index = prepare(await (await fetch(data + names.search)).json());
  return queries.map((query) => {
    const { rows, head } = find(index, query);
    return { rows: rows.slice(0, 3).map((place) => index.entries[place][0].replace(/#.*/, "")), head };
  });
}"""


def is_one_of(row: str, pages: list[str]) -> bool:
    return any(row == page or (page.endswith("/*") and row.startswith(page[:-1])) for page in pages)


def is_right(judged: dict[str, Any], answer: dict[str, Any]) -> bool:
    """Whether an answer is what was judged right; see the head of the file."""
    rows, head = answer["rows"], answer["head"]
    if "head" in judged:
        if head != judged["head"]:
            return False
    elif head:
        rows = ["pick/", *rows][:3]
    return ("first" not in judged or is_one_of(*rows[:1] or [""], judged["first"])) and (
        "three" not in judged or any(is_one_of(row, judged["three"]) for row in rows)
    )


def answers(page: Page, address: str, asset_address: str, queries: list[str]) -> list[dict[str, Any]]:
    page.goto(address)
    found: list[dict[str, Any]] = page.evaluate(ANSWERS, [asset_address, f"{address}data/", queries])
    return found


@pytest.mark.parametrize(("file", "count", "least"), [("queries.yml", 80, 76), ("more_queries.yml", 20, 19)])
def test_what_people_type(
    watched: Watched, address: str, asset_address: str, file: str, count: int, least: int
) -> None:
    judged = yaml_file(QUERIES / file)
    assert len({each["type"] for each in judged}) == count
    found = answers(watched.page, address, asset_address, [each["type"] for each in judged])
    wrong = [
        (each["type"], answer)
        for each, answer in zip(judged, found, strict=True)
        if not is_right(each, answer)
    ]
    assert len(judged) - len(wrong) >= least, wrong


def test_the_judgement_can_fail() -> None:
    judged = {"type": "x", "first": ["blends/a/"], "three": ["products/*"]}
    assert is_right(judged, {"rows": ["blends/a/", "x/", "products/b/"], "head": None})
    assert not is_right(judged, {"rows": ["x/", "blends/a/", "products/b/"], "head": None})
    assert not is_right(judged, {"rows": ["blends/a/", "x/"], "head": None})
    assert not is_right(judged, {"rows": ["blends/a/", "products/b/"], "head": {"tone": ["cool"]}})
    assert not is_right(judged, {"rows": [], "head": None})
    assert not is_right({"type": "x", "head": {"tone": ["cool"]}}, {"rows": [], "head": None})
