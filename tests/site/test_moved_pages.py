"""Addresses that an entry had before, and a retired entry: what the built site has at each of them."""

import re
from pathlib import Path

import pytest
from packs import packed_files
from small_site import house_config

from bowlbook.checks.judge import judge
from bowlbook.site.engine import build_into
from bowlbook.site.manifest import files_under
from bowlbook.site.verify import look_over
from checks.small_book import (
    BLEND,
    BLEND_FILE,
    CLASS_FILE,
    CLAY_FILE,
    DAY,
    SITUATION_FILE,
    TECHNIQUE_FILE,
    SmallBook,
)

SITE_URL = "https://book.example/house/"
FORMER = {
    CLAY_FILE: "products/old-tub",
    BLEND_FILE: "blends/old-clay",
    TECHNIQUE_FILE: "techniques/old-painting",
    SITUATION_FILE: "situations/old-head",
    CLASS_FILE: "classes/old-class",
}
REFRESH = re.compile(r'<meta http-equiv="refresh" content="0; url=([^"]*)">')


def built(book: SmallBook) -> Path:
    site = book.root.parent / "site"
    config = house_config(book)
    config.write_text(f"site_url: '{SITE_URL}'\n{config.read_text('utf-8')}", encoding="utf-8")
    warnings: list[str] = []
    build_into(site, config, judge(book.root, DAY), warnings.append)
    assert warnings == [] and look_over(site, files_under(site)).faults == []
    return site


def below(site: Path, folder: str) -> set[str]:
    return {path.parent.relative_to(site / folder).as_posix() for path in (site / folder).rglob("index.html")}


@pytest.fixture(scope="module")
def renamed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small book, built after each entry of it was renamed."""
    book = SmallBook(tmp_path_factory.mktemp("renamed") / "recipes")
    for path, former in FORMER.items():
        book.add(path, f"formerly: [{former.split('/')[1]}]\n")
    return built(book)


@pytest.mark.parametrize("path", FORMER)
def test_every_page_of_a_renamed_entry_is_reached_at_its_old_address(renamed: Path, path: str) -> None:
    """The entry's own pages, cards, slips, sheets, handouts: whatever is below its folder."""
    new, old = path.removesuffix(".yml"), FORMER[path]
    assert below(renamed, old) == below(renamed, new) != set()
    for page in (renamed / old).rglob("index.html"):
        text = page.read_text(encoding="utf-8")
        leads = REFRESH.search(text)
        assert leads is not None
        target = (page.parent / leads[1] / "index.html").resolve()
        assert target == renamed / new / page.relative_to(renamed / old) and target.is_file()
        assert f'<a href="{leads[1]}">' in text
        address = target.parent.relative_to(renamed).as_posix()
        assert f'<link rel="canonical" href="{SITE_URL}{address}/">' in text


def test_old_addresses_are_in_the_copy_on_the_phone_and_not_in_the_map(renamed: Path) -> None:
    assert "blends/old-clay/card/index.html" in packed_files(renamed)
    assert "old-clay" not in (renamed / "sitemap.xml").read_text(encoding="utf-8")


def test_search_has_the_former_id(renamed: Path) -> None:
    (index,) = (renamed / "data").glob("search-*.json")
    assert {"old", "tub"} <= set(
        index.read_text(encoding="utf-8").split('"words":"')[1].split('"')[0].split()
    )


RETIRED = {
    BLEND_FILE: "blends/ochre-clay",
    TECHNIQUE_FILE: "techniques/ochre-painting",
    SITUATION_FILE: "situations/ochre-head",
    CLASS_FILE: "classes/ochre-class",
}


@pytest.fixture(scope="module")
def retired(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small book with another blend, technique, situation and class, each retired, renamed before."""
    book = SmallBook(tmp_path_factory.mktemp("retired") / "recipes")
    for path, name in RETIRED.items():
        text = re.sub("name: .*", "name: Ochre", book.texts[path], count=1)
        retired = f"{{on: 2026-11-02, because: It went dull., instead: {Path(path).stem}}}"
        book.write(f"{name}.yml", f"{text}formerly: [ochreish]\nretired: {retired}\n")
    return built(book)


def shown(site: Path, address: str) -> str:
    text = (site / address / "index.html").read_text(encoding="utf-8")
    return " ".join(
        re.sub(r"<[^>]*>", " ", text[text.index("<article") :].partition("</article>")[0]).split()
    )


PRINTED = ("card", "strand-test", "service", "cards", "handout")


def leads_to(page: Path) -> Path | None:
    """Where the small page in this folder leads to; None where it is another page."""
    leads = REFRESH.search((page / "index.html").read_text(encoding="utf-8"))
    return (page / leads[1]).resolve() if leads else None


SUCCESSORS = ["Soft clay three to one", "Open painting", "Fine hair, a little lighter", "First painting"]


@pytest.mark.parametrize("address, successor", list(zip(RETIRED.values(), SUCCESSORS, strict=True)))
def test_a_retired_entry_keeps_a_page_with_its_successor_and_no_figures(
    retired: Path, address: str, successor: str
) -> None:
    text = shown(retired, address)
    assert "Retired on November 2, 2026: do not use it. It went dull." in text
    assert f"Instead: {successor}" in text
    assert "Weigh" not in text and "Scale shows" not in text


def test_it_is_in_no_list_and_no_answer_and_on_no_card(retired: Path) -> None:
    """Only its own page, its former address, the recent changes and the search index name it."""
    files = [path for path in retired.rglob("*") if path.suffix in (".html", ".json")]
    named = [path for path in files if "Ochre" in path.read_text(encoding="utf-8")]
    names = {path.relative_to(retired).as_posix() for path in named}
    own = {f"{address}/index.html" for address in RETIRED.values()}
    old = {f"{address.partition('/')[0]}/ochreish/index.html" for address in RETIRED.values()}
    printed = {name for name in names if name.split("/")[-2] in PRINTED}
    (search,) = (retired / "data").glob("search-*.json")
    assert names - printed == own | old | {"changes/index.html", f"data/{search.name}"}
    assert len(printed) == 12  # each leads to its entry's page, as the next test says


@pytest.mark.parametrize(
    "address, below",
    [
        (RETIRED[BLEND_FILE], ("card", "strand-test")),
        (RETIRED[TECHNIQUE_FILE], ("card", "service")),
        (RETIRED[CLASS_FILE], ("cards", "handout")),
    ],
)
def test_addresses_of_what_was_printed_lead_to_its_page(
    retired: Path, address: str, below: tuple[str, ...]
) -> None:
    kind, name = address.split("/")
    for before in (name, "ochreish"):
        for each in below:
            assert leads_to(retired / kind / before / each) == retired / address


def test_a_recipe_in_use_with_something_retired_in_it_says_so_at_its_top(tmp_path: Path) -> None:
    book = SmallBook(tmp_path / "recipes")
    book.write("products/other.yml", book.texts[CLAY_FILE].replace("Plain clay", "Other clay"))
    book.add(CLAY_FILE, "retired: {on: 2026-11-02, because: It was recalled., instead: other}\n")
    book.write(
        "blends/other.yml",
        BLEND.replace("Soft clay", "Other clay").replace("product: clay", "product: other"),
    )
    site = built(book)
    says = "Do not mix it: Plain clay (retired) is in it. It was recalled. Instead: Other clay"
    for address in ("blends/soft-clay", "techniques/painting"):
        assert shown(site, address).partition("Batch")[0].count(says) == 1
    assert "Scale shows" not in shown(site, "situations/fine-hair")
    for kind, name, printed in (
        ("blends", "soft-clay", "strand-test"),
        ("techniques", "painting", "service"),
    ):
        assert "card/" not in (site / kind / name / "index.html").read_text(encoding="utf-8")
        for below in ("card", printed):
            assert leads_to(site / kind / name / below) == site / kind / name
    assert leads_to(site / "blends/other/card") is None
    decks = [site / each / "index.html" for each in ("cards/house-1", "classes/first-painting/cards")]
    names = [page.read_text(encoding="utf-8") for page in decks if page.exists()]
    assert len(names) == 1 and "Other clay three to one" in names[0] and "Open painting" not in names[0]
