"""Products that several books share: taken over, held to the house's money, and never read from elsewhere."""

import os
import re
import shutil
from pathlib import Path

import pytest

from bowlbook.book.audience import copy_for
from bowlbook.book.read_book import read_book
from bowlbook.book.revision import recipes_at
from checks.small_book import BLEND_FILE, CLAY_FILE, HOUSE_FILE, SmallBook
from commands.git import commit, git
from commands.run import run, run_json
from systems import needs_links, needs_pipes

WAY = "products_from: ../../products\n"


@pytest.fixture
def sharing(tmp_path: Path) -> SmallBook:
    """The small book as one salon's of a group; its clay stands on the group's shelf only."""
    book = SmallBook(tmp_path / "group" / "north" / "recipes")
    shelf = tmp_path / "group" / "products"
    shelf.mkdir()
    text = book.texts.pop(CLAY_FILE).replace("priced_on", "currency: CAD, priced_on")
    (book.root / CLAY_FILE).unlink()
    (shelf / "clay.yml").write_text(text, encoding="utf-8")
    book.add(HOUSE_FILE, WAY)
    return book


def shelf_file(book: SmallBook, name: str = "clay.yml") -> Path:
    return book.root.parent.parent / "products" / name


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1, text
    path.write_text(text.replace(old, new), encoding="utf-8")


def codes(book: SmallBook) -> list[tuple[str, int, int, str]]:
    """Every finding, its path from the group's folder."""
    group = book.root.parent.parent
    return [
        (Path(each.place.path).relative_to(group).as_posix(), each.place.line, each.place.column, each.code)
        for each in book.judged()
    ]


def test_a_shared_product_is_one_of_the_book(sharing: SmallBook) -> None:
    sharing.shows(findings=0)
    book = sharing.read()
    assert list(book.products) == ["clay", "developer-20", "foil", "powder"]
    assert book.products["clay"] is book.shared["clay"]


def test_the_figures_are_those_of_products_of_its_own(recipes: Path, tmp_path: Path) -> None:
    """The demo book with every product on a shelf, and as it is: a bowl, a head and what check says."""
    salon, shelf = tmp_path / "group" / "north" / "recipes", tmp_path / "group" / "products"
    shutil.copytree(recipes, salon)
    (salon / "products").rename(shelf)
    for path in shelf.iterdir():
        text = path.read_text(encoding="utf-8")
        path.write_text(re.sub(r"(price: [\d.]+)", r"\1, currency: CAD", text), encoding="utf-8")
    house = (salon / "house.yml").read_text(encoding="utf-8")
    (salon / "house.yml").write_text(house + WAY, encoding="utf-8")
    for words in (
        ("mix", "cool-foil-coarse", "--batch", "1oz"),
        ("match", "--level", "4", "--lift", "4", "--texture", "coarse", "--tone", "cool"),
        ("check",),
    ):
        assert run_json(*words, recipes=salon) == run_json(*words, recipes=recipes)


def test_a_mistake_is_reported_at_its_line(
    sharing: SmallBook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    edit(shelf_file(sharing), "lifts: 5", "lifts: 50")
    monkeypatch.chdir(tmp_path / "group")
    found = run("check", recipes=Path("north/recipes"))
    assert found.exit_code == 1
    assert "products/clay.yml:5:8: out-of-bounds" in found.stdout
    assert "1 error, 0 warnings." in found.stdout
    monkeypatch.chdir(tmp_path / "group" / "north")
    assert "../products/clay.yml:5:8: out-of-bounds" in run("check", recipes=Path("recipes")).stdout


def test_a_check_of_a_shared_product_too(sharing: SmallBook) -> None:
    edit(shelf_file(sharing), "2026-09-01", "2020-09-01")
    assert codes(sharing) == [("products/clay.yml", 9, 60, "stale-price")]


def test_unused_is_reported_for_the_book_s_own_only(sharing: SmallBook) -> None:
    shelf_file(sharing, "tape.yml").write_text("name: Tape\nkind: supply\n", encoding="utf-8")
    sharing.shows(findings=0)
    sharing.write("products/clip.yml", "name: «unused-entry?»Clip\nkind: supply\n")
    sharing.shows(findings=1)


@needs_links
def test_what_stands_on_the_shelf_out_of_place(sharing: SmallBook) -> None:
    shelf_file(sharing, "Clay 2.yml").write_text("", encoding="utf-8")
    shelf_file(sharing, "list.csv").write_text("", encoding="utf-8")
    shelf_file(sharing, "old").mkdir()
    shelf_file(sharing, "far.yml").symlink_to("/etc/hostname")
    assert [(path, code) for path, _, _, code in codes(sharing)] == [
        ("products/Clay 2.yml", "bad-file-name"),
        ("products/far.yml", "not-a-file"),
        ("products/list.csv", "bad-file-name"),
        ("products/old", "misplaced-file"),
    ]


def own_clay(sharing: SmallBook, more: str) -> None:
    text = shelf_file(sharing).read_text(encoding="utf-8")
    sharing.write(CLAY_FILE, text.replace("39.00", "45.00") + more)


def test_one_of_its_own_in_its_place(sharing: SmallBook, tmp_path: Path) -> None:
    """By hand: 1 oz at 3:1 is 0.75 oz, 21.2621 g of clay at 45.00 / 450 g: 2.13."""
    own_clay(sharing, "instead_of_shared: yes\n")
    sharing.shows(findings=0)
    pours = run_json("mix", "soft-clay", "--batch", "1oz", recipes=sharing.root)["pours"]
    assert pours[0]["cost"] == "2.13"


def test_the_same_id_by_chance(sharing: SmallBook) -> None:
    own_clay(sharing, "")
    sharing.edit(CLAY_FILE, "name: ", "name: «duplicate-id»")
    sharing.shows(findings=1)


def test_in_the_place_of_nothing(sharing: SmallBook) -> None:
    sharing.add("products/powder.yml", "instead_of_shared: «unknown-id»yes\n")
    sharing.shows(findings=1)
    shelf_file(sharing).write_text(
        shelf_file(sharing).read_text(encoding="utf-8") + "instead_of_shared: yes\n", encoding="utf-8"
    )
    assert codes(sharing)[-1] == ("products/clay.yml", 10, 20, "unknown-id")


def test_one_of_its_own_that_is_broken_is_not_replaced_by_the_shared_one(sharing: SmallBook) -> None:
    own_clay(sharing, "instead_of_shared: yes\n")
    sharing.edit(CLAY_FILE, "lifts: 5", "lifts: «out-of-bounds»50")
    sharing.shows(findings=1)
    book = read_book(sharing.root).book
    assert book is not None and not book.whole
    assert "clay" not in book.products and "soft-clay" not in book.blends


def test_a_price_in_the_money_of_another_house(sharing: SmallBook) -> None:
    """A figure in dollars read as euros would be wrong on every page; the book says so instead."""
    sharing.edit(HOUSE_FILE, "currency: CAD", "currency: EUR")
    assert codes(sharing) == [("products/clay.yml", 9, 44, "mixed-currency")]
    own_clay(sharing, "instead_of_shared: yes\n")
    sharing.edit(CLAY_FILE, "currency: CAD", "currency: EUR")
    sharing.shows(findings=0)


def test_a_shared_price_says_its_currency(sharing: SmallBook) -> None:
    edit(shelf_file(sharing), "currency: CAD, ", "")
    assert codes(sharing) == [("products/clay.yml", 9, 7, "missing-key")]


def test_a_price_of_its_own_in_other_money(sharing: SmallBook) -> None:
    sharing.edit("products/powder.yml", "price: 47.50", "price: 47.50, currency: «mixed-currency»EUR")
    sharing.shows(findings=1)


def test_the_public_copy_keeps_nothing_of_the_shelf(sharing: SmallBook) -> None:
    edit(shelf_file(sharing), "kind: lightener", "kind: lightener\nprivate: Not for them.")
    book = sharing.read()
    assert "Not for them." in repr(book)
    public = copy_for(book, "public")
    assert "Not for them." not in repr(public) and "../../products" not in repr(public)


@pytest.mark.parametrize(
    "way",
    [
        "/etc",
        "//host/products",
        "~/products",
        "C:/products",
        "products",
        "./products",
        "..",
        "../..",
        "../",
        "../../../products",
        "../../../../../../etc",
        "../products/..",
        "../products/../../products",
        "../../products/",
        "../.git",
        "../../.ssh",
        "..\\products",
        '"../../pro\\tducts"',
        "file:///products",
        "../../" + "a/" * 120 + "a",
    ],
)
def test_a_way_that_is_none(sharing: SmallBook, way: str) -> None:
    sharing.edit(HOUSE_FILE, WAY, f"products_from: {way}\n")
    assert [(path, code) for path, _, _, code in codes(sharing)] == [
        ("north/recipes/house.yml", "bad-shared-folder")
    ]


def test_a_shelf_that_is_not_there_is_one_mistake(sharing: SmallBook) -> None:
    """Not one for each product that would have stood on it."""
    shelf_file(sharing).unlink()
    shelf_file(sharing).parent.rmdir()
    assert codes(sharing) == [("north/recipes/house.yml", 12, 16, "bad-shared-folder")]
    book = read_book(sharing.root).book
    assert book is not None and not book.whole


def test_a_shelf_inside_the_book(sharing: SmallBook) -> None:
    sharing.edit(HOUSE_FILE, WAY, "products_from: «bad-shared-folder»../recipes/products\n")
    sharing.shows(findings=1)


@pytest.mark.parametrize("link", ["products", "north/near"])
@needs_links
def test_a_link_on_the_way(sharing: SmallBook, tmp_path: Path, link: str) -> None:
    """The files of somebody else do not come into a book by way of a link."""
    shelf_file(sharing).parent.rename(tmp_path / "elsewhere")
    (tmp_path / "group" / link).symlink_to(tmp_path / "elsewhere")
    way = os.path.relpath(tmp_path / "group" / link, sharing.root)
    sharing.edit(HOUSE_FILE, WAY, f"products_from: «bad-shared-folder»{way}\n")
    sharing.shows(findings=1)


@pytest.mark.parametrize("top", ["recipes", "."])
def test_no_shelf_outside_the_repository(sharing: SmallBook, top: str) -> None:
    """A stranger's change to a book reads nothing that is beside its repository."""
    (sharing.root.parent / top / ".git").mkdir()
    sharing.edit(HOUSE_FILE, "products_from: ", "products_from: «bad-shared-folder»")
    sharing.shows(findings=1)


def test_a_house_that_is_wrong_elsewhere_still_finds_its_shelf(sharing: SmallBook) -> None:
    sharing.edit(HOUSE_FILE, "locale: en-CA", "locale: «unknown-word»English")
    sharing.edit(BLEND_FILE, "product: powder", "product: «unknown-id»power")
    sharing.shows(findings=2)


@needs_pipes
def test_a_shelf_may_be_written_by_nobody_but_read(sharing: SmallBook) -> None:
    os.mkfifo(shelf_file(sharing, "pipe.yml"))
    assert codes(sharing) == [("products/pipe.yml", 1, 1, "not-a-file")]


def test_the_book_at_a_revision_has_the_shelf_of_that_revision(sharing: SmallBook, tmp_path: Path) -> None:
    group = tmp_path / "group"
    git(group, "init", "-q")
    commit(group, tag="first")
    edit(shelf_file(sharing), "39.00", "45.00")
    with recipes_at(sharing.root, "HEAD") as then:
        reading = read_book(then)
        assert reading.findings == []
        assert reading.book is not None and reading.book.whole
        pack = reading.book.products["clay"].pack
        assert pack is not None and pack.price == 39
    shown = run("diff", "HEAD", recipes=sharing.root)
    assert shown.exit_code == 0 and "Soft clay three to one" in shown.stdout


def test_no_shelf_outside_the_repository_at_a_revision_either(tmp_path: Path) -> None:
    """Beside the folder that the old book is written to lie other people's."""
    book = SmallBook(tmp_path / "house" / "recipes")
    book.add(HOUSE_FILE, WAY)
    git(tmp_path / "house", "init", "-q")
    commit(tmp_path / "house", tag="first")
    with recipes_at(book.root, "HEAD") as then:
        beside = then.parent.parent / "products"
        assert not beside.exists()
        found = read_book(then).findings
    assert [each.code for each in found] == ["bad-shared-folder"]
    assert "leaves the book's git repository" in found[0].message


LIST = "product,net,price,date\nclay,450 g,45.00,2026-11-20\n"


def test_a_price_list_changes_a_shared_price_only_when_told_to(sharing: SmallBook, tmp_path: Path) -> None:
    prices = tmp_path / "list.csv"
    prices.write_text(LIST, encoding="utf-8")
    before = shelf_file(sharing).read_bytes()
    assert run("prices", str(prices), recipes=sharing.root).exit_code == 0
    refused = run("prices", str(prices), "--take-over", recipes=sharing.root)
    assert refused.exit_code == 1 and "counts in every book" in refused.stderr
    assert shelf_file(sharing).read_bytes() == before
    taken = run("prices", str(prices), "--take-over", "--shared", recipes=sharing.root)
    assert taken.exit_code == 0, taken.stderr
    assert "pack: {net: 450 g, price: 45.00, currency: CAD, priced_on: 2026-11-20}" in (
        shelf_file(sharing).read_text(encoding="utf-8")
    )
    sharing.shows(findings=0)


@pytest.mark.parametrize("pack", ["", "pack: {net: 450 g}\n"])
def test_a_first_shared_price_is_written_with_its_currency(
    sharing: SmallBook, tmp_path: Path, pack: str
) -> None:
    prices = tmp_path / "list.csv"
    prices.write_text(LIST, encoding="utf-8")
    text = shelf_file(sharing).read_text(encoding="utf-8")
    shelf_file(sharing).write_text(text[: text.index("pack:")] + pack, encoding="utf-8")
    taken = run("prices", str(prices), "--take-over", "--shared", recipes=sharing.root)
    assert taken.exit_code == 0, taken.stderr
    assert "currency: CAD" in shelf_file(sharing).read_text(encoding="utf-8")
    sharing.shows(findings=0)
