"""Forty products with decimal commas, as an .xlsx and as an .ods: what is read, asked and left out.

In `metric.txt` a line is a row; what is behind || was written by hand beside it, before the program had read
it: the entry's fields, the names of the columns that are asked about after ?, or that it is left out.
"""

import json
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from commands.run import run
from importing.house_of_import import write_house
from importing.sheets import write_ods, write_xlsx
from seeds import with_long

HEAD = (
    "Produkt | Art | Form | Stärke | Hellt bis | Verhältnis | Verhältnis von | Verhältnis bis | Anwendung | "
    "Entwickler max | Volumen | H2O2 % | Dichte (g/ml) | Inhalt | Preis (€) | Preis vom | Wirkung | Dosis | "
    "Farbrichtung | Lieferant | Bemerkung"
)
FIELDS = {
    "usual": "mixing_ratio.usual",
    "from": "mixing_ratio.from",
    "to": "mixing_ratio.to",
    "limit": "developer_limit",
    "net": "pack.net",
    "price": "pack.price",
    "on": "pack.priced_on",
    "supplier": "pack.supplier",
}


def rows_of(text: str) -> list[tuple[list[str], str]]:
    found = []
    for line in text.splitlines():
        cells, _, wanted = line.partition("||")
        found.append(([cell.strip() for cell in cells.split("|")][:21], wanted.strip()))
    return found


ROWS = rows_of(Path(__file__).with_name("metric.txt").read_text(encoding="utf-8"))


def wanted_of(text: str) -> dict[str, str]:
    """The fields that are written behind a row."""
    pairs = [each.partition("=") for each in text.split() if "=" in each]
    return {FIELDS.get(key, key): value.replace("_", " ") for key, _, value in pairs}


def flat(value: Any, way: str = "") -> dict[str, str]:
    if isinstance(value, dict):
        inner = [flat(each, f"{way}.{key}" if way else key) for key, each in value.items()]
        return {key: text for each in inner for key, text in each.items()}
    return {way: ",".join(value) if isinstance(value, list) else value.strip()}


@pytest.mark.parametrize("kind", with_long(["ods"], ["xlsx"]))
def test_forty_products(tmp_path: Path, kind: str) -> None:
    house = write_house(tmp_path / "recipes")
    table = tmp_path / f"produkte.{kind}"
    rows = [cells for cells, _ in ROWS]
    assert len(rows) == 40
    head = [cell.strip() for cell in HEAD.split("|")]
    if kind == "xlsx":
        write_xlsx(table, [head, *rows])
    else:  # where merged cells are, .ods does not say to the library: they are written out
        for before, row in pairwise(rows):
            row[:] = [above if cell == "^" else cell for above, cell in zip(before, row, strict=True)]
        write_ods(table, [head, *rows])
    result = run("import", str(table), "--json", recipes=house)
    assert result.exit_code == 1, result.output
    answer = json.loads(result.stdout)
    entries = {each["row"]: each for each in answer["entries"]}
    asked: dict[int, list[str]] = {}
    for each in answer["findings"]:
        if each["code"] == "unclear-cell":
            for row in each["rows"]:
                asked.setdefault(row, []).append(each["message"].split(":")[0].split(" (")[0])
    errors = {each["row"]: each["code"] for each in answer["findings"] if each["severity"] == "error"}
    wrong = []
    for number, (cells, wanted) in enumerate(ROWS, 2):
        name = cells[0]
        if wanted in ("left-out", "there"):
            code = {"there": "already-there", "left-out": "row-left-out"}[wanted]
            if number in entries or errors.get(number) != code:
                wrong.append((name, errors.get(number)))
            continue
        found = YAML(typ="base", pure=True).load(Path(entries[number]["path"]).read_text(encoding="utf-8"))
        questions = [each[1:].replace("_", " ") for each in wanted.split() if each.startswith("?")]
        if flat(found) != {"name": name, **wanted_of(wanted)}:
            wrong.append((name, flat(found).items() ^ {"name": name, **wanted_of(wanted)}.items()))
        if sorted(asked.get(number, [])) != sorted(questions):
            wrong.append((name, asked.get(number)))
    assert wrong == []
