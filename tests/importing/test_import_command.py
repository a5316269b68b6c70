"""``bowlbook import``: columns that a person must say, tables that cannot be read, and what is never kept."""

import json
import zipfile
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from openpyxl import Workbook

from bowlbook.book.folder import JOURNAL
from bowlbook.commands import import_table, main
from bowlbook.importing import words
from commands.run import invoke, run
from importing.house_of_import import entry
from importing.sheets import write_ods, write_xlsx

HEAD = "Recipe;Lightener;Parts;Developer;Ratio;Natural level;Lift;Texture;Placement"
ROW = "Plain;White powder;1;20 vol;1:2;6;1;medium;foil"


def table(tmp_path: Path, *lines: str, name: str = "table.csv") -> str:
    path = tmp_path / name
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return str(path)


def answer(house: Path, *arguments: str) -> Any:
    return json.loads(run("import", *arguments, "--json", recipes=house).stdout)


def files(house: Path) -> list[Path]:
    return sorted(path for path in house.rglob("*") if path.is_file())


def test_a_certain_row_passes_check(house: Path, tmp_path: Path) -> None:
    result = run("import", table(tmp_path, HEAD, ROW), recipes=house)
    assert result.exit_code == 0, result.output
    assert "1 row: 1 entry written, 0 of them with gaps." in result.stdout
    assert run("check", recipes=house).exit_code == 0


def test_a_column_that_nobody_knows_stops_it_until_it_is_said(house: Path, tmp_path: Path) -> None:
    file = table(tmp_path, f"{HEAD};Quirk", f"{ROW};do not rush")
    before = files(house)
    result = run("import", file, recipes=house)
    assert result.exit_code == 1 and "unclear-column" in result.stderr and '"Quirk"' in result.stderr
    assert files(house) == before
    map_file = table(tmp_path, "columns:", '  "Quirk": cautions', name="map.yml")
    assert run("import", file, "--columns", map_file, recipes=house).exit_code == 0
    assert entry(house, "blends/plain")["cautions"] == ["do not rush"]


def test_a_column_may_be_left_out_by_name(house: Path, tmp_path: Path) -> None:
    file = table(tmp_path, f"{HEAD};Quirk", f"{ROW};do not rush")
    map_file = table(tmp_path, "rows: recipes", "columns:", "  quirk: leave out", name="map.yml")
    result = run("import", file, "--columns", map_file, recipes=house)
    assert result.exit_code == 0 and "Columns left out, as said: Quirk." in result.stdout
    assert "do not rush" not in (house / "blends" / "plain.yml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("columns:\n  Quirk: nothing\n", 2),
        ("rows: boats\n", 1),
        ("decimal: dot\n", 1),
        ("colums: {}\n", 1),
        ("columns: [a]\n", 1),
        ("columns: {\n", 1),
    ],
)
def test_a_map_with_a_mistake(house: Path, tmp_path: Path, text: str, line: int) -> None:
    map_file = table(tmp_path, text.rstrip("\n"), name="map.yml")
    result = run("import", table(tmp_path, HEAD, ROW), "--columns", map_file, recipes=house)
    assert result.exit_code == 1 and f"map.yml:{line}:" in result.stderr
    assert "bad-columns" in result.stderr or "not-yaml" in result.stderr
    assert not (house / "blends").exists()


def test_thousands_or_decimals_is_said_once_for_a_table(house: Path, tmp_path: Path) -> None:
    file = table(tmp_path, HEAD, ROW.replace("1:2", "1:1,125"))
    assert answer(house, file, "--dry-run")["entries"][0]["gaps"] == ["developer.ratio"]
    map_file = table(tmp_path, "decimal: comma", name="map.yml")
    assert run("import", file, "--columns", map_file, recipes=house).exit_code == 0
    assert entry(house, "blends/plain")["developer"]["ratio"] == "1:1.125"


def test_a_terminal_asks_for_what_is_unknown_and_for_consent(
    house: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(import_table, "is_interactive", lambda: True)
    file = table(tmp_path, f"{HEAD};Quirk", f"{ROW};do not rush")
    before = files(house)
    words_of = ["import", "--recipes", str(house), file]
    refused = CliRunner().invoke(main, words_of, input="nonsense\ncautions\nn\n")
    assert refused.exit_code == 1 and "Recipe: name" in refused.output and files(house) == before
    assert "Is each column what is said here?" in refused.output
    assert CliRunner().invoke(main, words_of, input="cautions\ny\n").exit_code == 0
    assert entry(house, "blends/plain")["cautions"] == ["do not rush"]


@pytest.mark.parametrize(
    "person", ["Phone", "Kundin", "E-mail", "Telefone da cliente", "Date of birth", "Vorname"]
)
@pytest.mark.parametrize("name", ["Name", "Nome", "Naam"])
def test_a_list_of_clients_is_not_taken_for_recipes(
    house: Path, tmp_path: Path, person: str, name: str
) -> None:
    file = table(
        tmp_path,
        f"{HEAD.replace('Recipe', name)};{person}",
        f"{ROW.replace('Plain', 'Mira Alves')};912345678",
    )
    result = run("import", file, recipes=house)
    printed = result.stdout + result.stderr
    assert result.exit_code == 1 and "client-details" in printed
    assert "Mira" not in printed and "912345678" not in printed
    assert not (house / "blends").exists()


@pytest.mark.parametrize(
    "cell", ["for Frau Meier", "ring 0912 345 678 first", "ana@salon.example", "Mme Dubois"]
)
def test_a_cell_about_a_person_keeps_its_row_out(house: Path, tmp_path: Path, cell: str) -> None:
    file = table(tmp_path, f"{HEAD};Notes", f"{ROW};{cell}", f"{ROW.replace('Plain', 'Other')};fine")
    result = run("import", file, recipes=house)
    assert result.exit_code == 1 and "client-details" in result.output
    assert [path.name for path in (house / "blends").iterdir()] == ["other.yml"]
    assert cell.split()[-1] not in result.output


def test_notes_stay_private_and_nothing_private_is_repeated(house: Path, tmp_path: Path) -> None:
    file = table(tmp_path, f"{HEAD};Notes;Price", f"{ROW};costs us 31.90;secret", name="table.csv")
    map_file = table(tmp_path, "columns: {Price: leave out}", name="map.yml")
    run("import", file, "--columns", map_file, recipes=house)
    assert entry(house, "blends/plain")["private"] == "costs us 31.90"
    products = table(
        tmp_path, "Product;Kind;Net;Price", "Gloves;supply;100 pcs;about 9.123", name="products.csv"
    )
    result = run("import", products, recipes=house)
    assert result.exit_code == 1 and "9.123" not in result.output
    assert "9.123" not in (house / "products" / "gloves.yml").read_text(encoding="utf-8")


def test_a_price_that_cannot_be_right_is_not_repeated(house: Path, tmp_path: Path) -> None:
    file = table(tmp_path, "Product;Kind;Net;Price", "Gloves;supply;100 pcs;1.234.567,00")
    result = run("import", file, recipes=house)
    assert "This amount cannot be right here." in result.output and "1234567" not in result.output
    text = (house / "products" / "gloves.yml").read_text(encoding="utf-8")
    assert "price: ???" in text and "567" not in text


FACETS = ("Natural level", "Lift", "Texture", "Placement", "Tone", "Curl")
CELLS = dict(zip(FACETS, ("6", "1", "medium", "foil", "cool", "curly"), strict=True))
KEYS = {name: name.lower().replace(" ", "_") for name in FACETS}


def test_suits_is_never_more_than_the_table_states(house: Path, tmp_path: Path) -> None:
    """Every set of stated facets: those, gaps for the four that must be said, and nothing else."""
    rows = list(product((True, False), repeat=len(FACETS)))
    lines = []
    for number, row in enumerate(rows):
        stated_cells = [CELLS[facet] if on else "" for facet, on in zip(FACETS, row, strict=True)]
        lines.append(";".join([f"Head {number}", "White powder", "1", "20 vol", "1:2", *stated_cells]))
    head = ";".join(["Recipe", "Lightener", "Parts", "Developer", "Ratio", *FACETS])
    file = table(tmp_path, head, *lines)
    assert len(answer(house, file)["entries"]) == 64
    for number, row in enumerate(rows):
        stated = {KEYS[facet] for facet, on in zip(FACETS, row, strict=True) if on}
        found = entry(house, f"blends/head-{number}")["suits"]
        if not stated:
            assert found == "???"
            continue
        assert {key for key, value in found.items() if value != "???"} == stated
        assert {key for key, value in found.items() if value == "???"} == (
            {"natural_level", "lift", "texture", "placement"} - stated
        )


def test_all_of_the_hair_grey_is_not_any_hair(house: Path, tmp_path: Path) -> None:
    """All is a value of grey; in another language it is asked about, since it may mean that any will do."""
    rows = [f"{ROW.replace('Plain', f'Grey {text}')};{text}" for text in ("all", "any", "alle")]
    answer(house, table(tmp_path, f"{HEAD};Grey", *rows))
    found = {
        text: entry(house, f"blends/grey-{text}")["suits"].get("grey") for text in ("all", "any", "alle")
    }
    assert found == {"all": ["all"], "any": None, "alle": "???"}


def test_what_must_be_said_is_what_a_start_asks(recipes: Path) -> None:
    start = (Path(import_table.__file__).parent / "starts" / "blend.yml").read_text(encoding="utf-8")
    suits = start.partition("suits:\n")[2].partition("\n\n")[0]
    from bowlbook.importing.recipe import ASKED

    assert tuple(line.split(":")[0].strip() for line in suits.splitlines()) == ASKED


def test_a_recipe_over_two_rows_with_merged_cells(house: Path, tmp_path: Path) -> None:
    head = HEAD.split(";")
    rows = [
        ["Two rows", "Soft clay", "2", "20 vol", "1:2", "6", "1", "medium", "foil"],
        ["^", "White powder", "1", "^", "^", "^", "^", "^", "^"],
        ["One row", "Soft clay", "", "^", "^", "7", "1", "fine", "foil"],
    ]
    write_xlsx(tmp_path / "merged.xlsx", [["Our recipes"], head, *rows])
    assert answer(house, str(tmp_path / "merged.xlsx"))["findings"] == []
    assert entry(house, "blends/two-rows")["lighteners"] == [
        {"product": "soft-clay", "parts": "2"},
        {"product": "white-powder", "parts": "1"},
    ]
    assert entry(house, "blends/one-row")["developer"] == {"ratio": "1:2", "product": "developer-20"}


def test_merged_rows_that_disagree_are_asked_about(house: Path, tmp_path: Path) -> None:
    rows = [
        ["Two rows", "Soft clay", "2", "20 vol", "1:2", "6", "1", "medium", "foil"],
        ["^", "White powder", "1", "10 vol", "1:2", "6", "1", "medium", "foil"],
    ]
    write_xlsx(tmp_path / "merged.xlsx", [HEAD.split(";"), *rows])
    assert answer(house, str(tmp_path / "merged.xlsx"))["entries"][0]["gaps"] == ["developer.product"]


@pytest.mark.parametrize("kind", ["xlsx", "ods"])
def test_what_a_program_made_of_a_ratio(house: Path, tmp_path: Path, kind: str) -> None:
    """1:2 in a cell is kept as the time 01:02, and can be nothing else; 1:1.5 and 6-10 are asked about."""
    rows = [
        ["A", "White powder", "1", "20 vol", "~01:02", "=6", "=1", "medium", "foil"],
        ["B", "White powder", "1", "20 vol", "~00:01:01", "@2026-10-06", "=1", "medium", "foil"],
    ]
    write = write_xlsx if kind == "xlsx" else write_ods
    write(tmp_path / f"t.{kind}", [HEAD.split(";"), *rows])
    gaps = {each["id"]: each["gaps"] for each in answer(house, str(tmp_path / f"t.{kind}"))["entries"]}
    assert gaps == {"a": [], "b": ["developer.ratio", "suits.natural_level"]}
    assert (
        entry(house, "blends/a")["developer"]["ratio"] == "1:2"
        and entry(house, "blends/a")["suits"]["natural_level"] == "6"
    )


def test_toners_and_additives(house: Path, tmp_path: Path) -> None:
    file = table(
        tmp_path,
        "Recipe;Lightener;Toner;Developer;Ratio;Additive;Additive ratio;Target level;"
        "Natural level;Lift;Texture;Placement",
        "Gloss;;Pearl toner;10 vol;1:2;;;9-10;;;;",
        "Bonded;White powder;;20 vol;1:2;Bond drops;10:1;;6;1;medium;foil",
        "Bonded too;White powder;;20 vol;1:2;Bond drops 12:1;;;6;1;medium;foil",
        "Both;White powder;Pearl toner;20 vol;1:2;;;;6;1;medium;foil",
    )
    found = {each["id"]: each["gaps"] for each in answer(house, file)["entries"]}
    assert found == {
        "gloss": [],
        "bonded": [],
        "bonded-too": [],
        "both": ["additives.product", "additives.ratio"],
    }
    assert entry(house, "blends/gloss")["toners"] == [{"product": "pearl-toner", "parts": "1"}]
    assert entry(house, "blends/bonded")["additives"] == [{"product": "bond-drops", "ratio": "10:1"}]
    assert entry(house, "blends/bonded-too")["additives"] == [{"product": "bond-drops", "ratio": "12:1"}]


DEVELOPERS = {
    "20 vol": "developer-20",
    "Developer, 20 volume": "developer-20",
    "developer-20": "developer-20",
    "20 Vol. (6 %)": "developer-20",
    "6 %": "developer-20",
    "Oxidante 10 vol": "developer-10",
    "40 vol": "developer-40-volume",
    "20": "???",
    "9 %": "???",
    "20 vol / 10 vol": "???",
    "20 vol (9 %)": "???",
    "Bond drops": "???",
    "Developr 20 volume": "???",
}
"""What a table says, and which developer of the house it is, by the labels of its bottles."""


@pytest.mark.parametrize("text", DEVELOPERS)
def test_a_developer_by_name_or_strength(house: Path, tmp_path: Path, text: str) -> None:
    file = table(tmp_path, f"{HEAD};Caution", f"{ROW.replace('20 vol', text)};Slowly.")
    answer(house, file)
    assert entry(house, "blends/plain")["developer"]["product"] == DEVELOPERS[text]


def test_a_row_that_is_left_out_begins_no_product(house: Path, tmp_path: Path) -> None:
    file = table(tmp_path, HEAD, "Odd;White powder;1;25 vol;1:9;6;1;medium;foil")
    before = files(house)
    assert answer(house, file)["entries"] == [] and files(house) == before


def test_not_for_in_words_is_a_gap_and_not_lost(house: Path, tmp_path: Path) -> None:
    file = table(tmp_path, f"{HEAD};Not for", f"{ROW};hair that breaks")
    assert answer(house, file)["entries"][0]["gaps"] == ["not_for"]
    text = (house / "blends" / "plain.yml").read_text(encoding="utf-8")
    assert "not_for: ???  # row 2 says hair that breaks" in text


def test_all_rows_or_none_are_written(house: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from bowlbook.book import replacing

    file = table(tmp_path, HEAD, ROW, ROW.replace("Plain", "Other"))
    before, calls = files(house), []
    link = replacing.os.link

    def full_disk(source: Path, target: Path) -> None:
        calls.append(target)
        if len(calls) > 1:
            raise KeyboardInterrupt
        link(source, target)

    monkeypatch.setattr(replacing.os, "link", full_disk)
    invoke(["import", "--recipes", str(house), file])
    monkeypatch.undo()
    assert (house / JOURNAL).is_dir()
    result = run("import", file, recipes=house)
    assert "interrupted" in result.stderr and not (house / JOURNAL).exists()
    assert len(files(house)) == len(before) + 2


BAD = {
    "empty.csv": b"",
    "one-cell.csv": b"hello\n",
    "latin.csv": "Receita;Pó\n".encode("latin-1"),
    "quote.csv": b'Recipe;Lightener\n"open;x\n',
    "control.csv": b"Recipe;Lightener\nA\x07;x\n",
    "no-zip.xlsx": b"PK\x03\x04 no zip",
    "no-zip.ods": b"",
    "table.pdf": b"%PDF-1.4",
}


@pytest.mark.parametrize("name", BAD)
def test_a_file_that_is_no_table(house: Path, tmp_path: Path, name: str) -> None:
    path = tmp_path / name
    path.write_bytes(BAD[name])
    before = files(house)
    result = run("import", str(path), recipes=house)
    assert result.exit_code == 1 and f"{name}:" in result.stderr and "Nothing was written." in result.stderr
    assert files(house) == before


def test_a_small_file_that_unpacks_to_a_very_large_one(house: Path, tmp_path: Path) -> None:
    path = tmp_path / "bomb.xlsx"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/worksheets/sheet1.xml", b" " * (80 * 1024 * 1024))
    result = run("import", str(path), recipes=house)
    assert result.exit_code == 1 and "bad-table This table is far larger" in result.stderr


def test_one_of_several_sheets_is_said(house: Path, tmp_path: Path) -> None:
    book = Workbook()
    for name in ("Blends", "Other"):
        sheet = book.create_sheet(name)
        sheet.append(HEAD.split(";"))
        sheet.append(ROW.split(";"))
    path = tmp_path / "two.xlsx"
    book.save(path)
    result = run("import", str(path), recipes=house)
    assert result.exit_code == 1 and '"Blends", "Other"' in result.stderr
    assert run("import", str(path), "--sheet", "Blends", recipes=house).exit_code == 0


def test_no_house_no_import(tmp_path: Path) -> None:
    (tmp_path / "recipes").mkdir()
    result = run("import", table(tmp_path, HEAD, ROW), recipes=tmp_path / "recipes")
    assert result.exit_code == 1 and "no-house" in result.stderr


def test_the_words_of_cells_are_the_books_own() -> None:
    """Every list of meanings leads to words that a field takes, and no word means two things."""
    from bowlbook.entries.facets import FACET_WORDS
    from bowlbook.entries.facets import FACETS as FACETS_OF_BOOK
    from bowlbook.entries.product import FORMS, PIGMENTS, PRODUCT_KINDS, STRENGTHS

    known = {**FACET_WORDS, "kind": PRODUCT_KINDS, "strength": STRENGTHS}
    for of, wanted in known.items():
        assert set(words.meanings(of).values()) == set(wanted), of
        assert list(dict.fromkeys(words.meanings(of).values())) == list(wanted), of
    assert {f"suits.{facet}" for facet in FACETS_OF_BOOK} <= set(words.fields("recipe"))
    assert set(FORMS) <= set(words.meanings("form").values())
    assert set(PIGMENTS) <= set(words.meanings("pigment").values())
    several = {name for name, fields in words.columns("recipe").items() if len(fields) > 1}
    endings = ("tion", "tions", "cion", "cao", "zione", "zioni")
    assert several == {f"propor{each}" for each in endings}
    assert all(len(fields) == 1 for fields in words.columns("product").values())


def test_longest_times_and_what_is_worn(house: Path, tmp_path: Path) -> None:
    """A product's longest times need their minutes said, as any time does."""
    head = "Product;Kind;Longest on hair;Longest on scalp;Per person"
    lines = "Root cream;lightener;50 min;45 minutes;", "Gowns;supply;;;yes", "Odd cream;lightener;50;;"
    result = run("import", table(tmp_path, head, *lines), recipes=house)
    assert "not a number of minutes for certain" in result.output
    cream = entry(house, "products/root-cream")
    assert (cream["longest_on_hair"], cream["longest_on_scalp"]) == ("50 minutes", "45 minutes")
    assert entry(house, "products/odd-cream")["longest_on_hair"] == "???"  # left open, with the question
    assert entry(house, "products/gowns")["per_person"] == "yes"
