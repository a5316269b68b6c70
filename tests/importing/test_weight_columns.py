"""Weights as a back bar keeps them: columns whose names end in a unit, fractions that a spreadsheet keeps.

What is behind || in `ounces.txt` was written by hand before the program had read it: parts, ratio, and the
columns that are asked about.
"""

from pathlib import Path

import pytest
from odf.opendocument import OpenDocumentSpreadsheet
from odf.table import CoveredTableCell, Table, TableCell, TableRow
from odf.text import P

from commands.run import run
from importing.house_of_import import entry
from importing.sheets import write_xlsx

HEAD = [
    "Mix",
    "Powder",
    "Powder oz",
    "Clay",
    "Clay oz",
    "Developer",
    "Developer (oz)",
    "Base",
    "Lift",
    "Texture",
]
ROWS = Path(__file__).with_name("ounces.txt").read_text(encoding="utf-8").splitlines()
EVERY_ROW = "every_row:\n  kind: descolorante\n  placement: folha\n  pack.priced_on: 2026-09-01\n"
POWDERS = (
    "Produto;Forma;Força;Razão;Conteúdo g;Preço\nPó um;pó;forte;1:2;500;31,90\nPó dois;pó;forte;1:2;400;28\n"
)


def imported(house: Path, name: str, content: str | bytes, *arguments: str) -> str:
    path = house.parent / name
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    done = run("import", str(path), *arguments, recipes=house)
    return done.stdout + done.stderr


def split(text: str) -> list[str]:
    return [each.strip() for each in text.split("|")]


def test_weights_in_ounces(house: Path, tmp_path: Path) -> None:
    """Every question is printed, also of many: nobody can ask for them later."""
    rows = [["Our mixes"], [""], [*HEAD, "Placement"]]
    for number, line in enumerate(ROWS * 4):
        powder, clay, developer = split(line.partition("||")[0])
        made = [f"Mix {number}", "White powder", powder, "Soft clay", clay, "20 vol", developer]
        rows.append([*made, "from 5 to 7", "1-3", "medium", "foil"])
    write_xlsx(tmp_path / "mixes.xlsx", rows)
    shown = run("import", str(tmp_path / "mixes.xlsx"), recipes=house).stdout.splitlines()
    for number, line in enumerate(ROWS * 4):
        parts, ratio, *wanted = split(line.partition("||")[2])
        blend = entry(house, f"blends/mix-{number}")
        assert " ".join(each["parts"] for each in blend["lighteners"]) == parts, line
        assert blend["developer"] == {"ratio": ratio, "product": "developer-20"}, line
        assert blend["suits"]["natural_level"] == "5-7"
        asked = [each for each in shown if f"mixes.xlsx:{number + 4}:" in each]
        assert [each.split("(warning) ")[1].split(": ")[0] for each in asked] == wanted, line


def test_a_weight_beside_no_product_is_not_taken_for_another_products(house: Path) -> None:
    head = "Mix;Powder;Powder (g);Clay;Clay (g);Developer;Developer (g);Base;Lift;Texture;Placement"
    row = "Odd;;30;Soft clay;;20 vol;60;6;1;medium;foil"
    assert "The amount is not beside the product." in imported(house, "mixes.csv", f"{head}\n{row}\n")
    assert entry(house, "blends/odd")["developer"]["ratio"] == "???"


def test_what_every_row_shares_is_said_once(house: Path) -> None:
    (house.parent / "map.yml").write_text(EVERY_ROW, encoding="utf-8")
    shown = imported(house, "pos.csv", POWDERS, "--columns", str(house.parent / "map.yml"))
    assert "2 entries written" in shown, shown
    product = entry(house, "products/po-dois")
    assert (product["kind"], product["placement"]) == ("lightener", ["foil"])
    assert product["pack"] == {"net": "400 g", "price": "28.00", "priced_on": "2026-09-01"}


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ("every_row: {kinds: lightener}\n", 'Did you mean "kind"?'),
        ("every_row: {kind: [lightener]}\n", "Write one text."),
        ("every_row: {kind: lightener, form: clay}\n", "Another column is form already."),
    ],
)
def test_what_every_row_cannot_share(house: Path, said: str, why: str) -> None:
    (house.parent / "map.yml").write_text(f"rows: products\n{said}", encoding="utf-8")
    assert why in imported(house, "pos.csv", POWDERS, "--columns", str(house.parent / "map.yml"))
    assert not (house / "products/po-um.yml").exists()


def test_a_csv_of_another_encoding_says_how_to_save_it(house: Path) -> None:
    shown = imported(house, "pos.csv", POWDERS.encode("cp1252"))
    assert "pos.csv:1:" in shown and "as CSV UTF-8, or as .xlsx" in shown


@pytest.mark.parametrize("rows", [1, 2])
def test_an_ods_with_cells_merged_over_rows_is_refused(house: Path, rows: int) -> None:
    """The library does not say where they are: a caution of the first row would be lost in the second."""
    document, table = OpenDocumentSpreadsheet(), Table(name="Produtos")
    for number, cells in enumerate([["Produto", "Tipo"], ["Folhas", "Consumível"], ["Luvas", "Consumível"]]):
        line = TableRow()
        for cell in cells:
            covered = rows == 2 and number == 2 and cell != "Luvas"
            span = rows if number == 1 and cell == "Consumível" else 1
            made = CoveredTableCell() if covered else TableCell(valuetype="string", numberrowsspanned=span)
            made.addElement(P(text="" if covered else cell))
            line.addElement(made)
        table.addElement(line)
    document.spreadsheet.addElement(table)
    document.save(str(house.parent / "produtos.ods"))
    done = run("import", str(house.parent / "produtos.ods"), recipes=house)
    shown = done.stdout + done.stderr
    assert ("Save it as .xlsx" in shown, "2 entries written" in shown) == (rows == 2, rows == 1)
