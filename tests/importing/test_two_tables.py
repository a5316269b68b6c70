"""Products first and their recipes next, from two tables, as a house begins: products with gaps are found."""

from pathlib import Path

import pytest

from commands.run import run
from importing.house_of_import import entry

PRODUCTS = """\
Produto;Tipo;Forma;Força;Níveis;Proporção;Onde;Embalagem;Preço;Data do preço;Fornecedor
Pó raro;descolorante;pó;forte;7;1:2;ar livre, folha;500 g;€ 31,90;01/09/2026;Armazém
Argila rara;descolorante;argila;suave;6;1+2;ar livre;450g;38,00;1-9-2026;Loja
Oxidante 25;oxidante;;25 vol;;;;1 L;9,80 €;01/09/2026;Armazém
"""
RECIPES = """\
Nome;Descolorante;Partes;Proporção;Oxidante;Níveis naturais;Textura;Colocação
Três para um;Argila rara + Pó raro;3:1;1:2;Oxidante 25;5-8;média;ar livre
Folha;Pó raro;;1:2;25 vol;3-6;grossa;folha
"""


def imported(house: Path, text: str, said: str = "") -> str:
    table, columns = house.parent / "table.csv", house.parent / "map.yml"
    table.write_text(text, encoding="utf-8")
    columns.write_text(said, encoding="utf-8")
    with_map = ("--columns", str(columns)) if said else ()
    result = run("import", str(table), *with_map, recipes=house)
    return result.stdout + result.stderr


SAID = "days: day first\ncolumns:\n  Níveis: lifts\n"


def test_recipes_find_products_that_have_gaps(house: Path) -> None:
    imported(house, PRODUCTS, SAID)
    assert entry(house, "products/po-raro")["developer_limit"] == "???"
    shown = imported(house, RECIPES, "columns:\n  Níveis naturais: suits.natural_level\n")
    assert "Mend" not in shown, shown
    three = entry(house, "blends/tres-para-um")
    assert [each["product"] for each in three["lighteners"]] == ["argila-rara", "po-raro"]
    assert three["developer"] == {"ratio": "1:2", "product": "oxidante-25"}
    assert entry(house, "blends/folha")["developer"] == {"ratio": "1:2", "product": "oxidante-25"}
    assert not (house / "products/developer-25-volume.yml").exists()


def test_a_developers_strength_in_volumes_is_its_volume(house: Path) -> None:
    shown = imported(house, PRODUCTS, SAID)
    assert "Força" not in shown and entry(house, "products/oxidante-25")["volume"] == "25"


@pytest.mark.parametrize(
    ("said", "day"), [("", "???"), ("days: day first\n", "2026-09-01"), ("days: month first\n", "2026-01-09")]
)
def test_which_is_the_day_is_said_once_for_the_table(house: Path, said: str, day: str) -> None:
    shown = imported(house, PRODUCTS, said)
    assert entry(house, "products/po-raro")["pack"]["priced_on"] == day
    assert ("days: day first (or month first) in the file" in shown) == (not said)


def test_another_order_of_days_is_refused(house: Path) -> None:
    assert "Write days: day first or days: month first." in imported(house, PRODUCTS, "days: dmy\n")


def test_what_a_column_may_be_is_said(house: Path) -> None:
    """Of a lightener's levels: which fields it has that no column is. Of an unknown column: all of them."""
    shown = imported(house, PRODUCTS, "days: day first\n")
    assert "what the column is: lifts, pigment, mixing_ratio.from," in shown
    shown = imported(house, RECIPES.replace("Níveis naturais", "Bom para"))
    assert "Fields without a column: id," in shown and "suits.natural_level" in shown
    assert "para" not in shown.partition("Mend:")[2].partition("Say what")[0]  # never "not for"


def test_a_proportion_is_asked_where_no_column_says_the_parts(house: Path) -> None:
    imported(house, PRODUCTS, SAID)
    without = RECIPES.replace("Partes;", "").replace("3:1;", "").replace(";;", ";")
    shown = imported(house, without, "columns:\n  Níveis naturais: suits.natural_level\n")
    assert '"Proporção": This may be lighteners.parts or developer.ratio.' in shown


def test_a_row_about_a_person_is_not_quoted(house: Path) -> None:
    row = "Ana Silva 912345678;Pó raro;;1:2;25 vol;3-6;grossa;folha\n"
    shown = imported(house, RECIPES + row, "columns:\n  Níveis naturais: suits.natural_level\n")
    assert "This row is not written." in shown
    assert "silva" not in shown.lower() and "912345678" not in shown


def test_one_part_of_an_additive_to_twenty_is_asked(house: Path) -> None:
    """The book writes lightener to additive, a jotting often the reverse: 1:20 may be meant as 20:1."""
    imported(house, PRODUCTS + "Gotas raras;aditivo;;;;;;100 g;;;\n", SAID)
    head, row = RECIPES.splitlines()[0], "Nuvem;Argila rara;1;1:2;25 vol;5-8;média;ar livre"
    text = f"{head};Aditivo\n{row};Gotas raras 1:20\nS{row};Gotas raras 20:1\n"
    shown = imported(house, text, "columns:\n  Níveis naturais: suits.natural_level\n")
    assert "more of the additive than of the lightener?" in shown and "as 20:1." in shown
    ratios = [entry(house, f"blends/{each}")["additives"][0]["ratio"] for each in ("nuvem", "snuvem")]
    assert ratios == ["???", "20:1"]
