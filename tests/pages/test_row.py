"""Rows of lists: nothing that the heading or the name says already, and no line that begins with a dot."""

from bowlbook.pages.row import row_of


def test_a_products_row_says_neither_its_kind_nor_its_volume_twice(demo_book) -> None:
    for product in demo_book.products.values():
        row = row_of(demo_book, product)
        assert row is not None and not row.line.startswith(product.kind)
        assert not any("volume" in tag for tag in row.tags)
    ten = row_of(demo_book, demo_book.products["developer-10"])
    assert ten is not None and ten.line == "10 volume, 3 %"


def test_a_recipe_breaks_after_its_dots(demo_book) -> None:
    row = row_of(demo_book, demo_book.blends["cool-foil-coarse"])
    assert row is not None and row.line.endswith("1:2\u00a0· 20\u00a0volume")


def test_hazards_stand_above_what_a_product_is(demo_site) -> None:
    page = (demo_site / "products/blue-powder/index.html").read_text(encoding="utf-8")
    assert page.index('id="hazards"') < page.index('class="bb-mind"') < page.index('<dl class="bb-facts')
