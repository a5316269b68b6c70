"""Photographs in a site: small copies without place and camera data, and none in a public copy unasked."""

import io
import re
import subprocess
import sys
from pathlib import Path

import pytest
from packs import packed_files
from PIL import Image
from small_site import house_config

from bowlbook.checks.judge import Judgement, judge
from bowlbook.site.engine import build_into
from checks.small_book import DAY, TECHNIQUE_FILE, SmallBook
from photographs import CAMERA, GPS, ON_ITS_SIDE, write_photograph

PHOTOGRAPHS = {
    "whole-head": {"size": (1000, 750)},
    "back": {"size": (1700, 1275), "orientation": ON_ITS_SIDE},
    "foil": {"size": (1700, 1275)},
}
WIDEST = {"whole-head": 1000, "back": 1275, "foil": 1600}
"""Pixels across of the largest copy: none is wider than 1600, nor than what was taken."""


@pytest.fixture(scope="module")
def sites(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """A technique with three photographs, of which one may be seen by all; and its team's and public site."""
    root = tmp_path_factory.mktemp("pictures")
    book = SmallBook(root / "recipes")
    lines = ["pictures:\n"]
    for number, (name, how) in enumerate(PHOTOGRAPHS.items()):
        write_photograph(book.root, f"{name}.jpg", seed=number, **how)
        step = "" if name == "whole-head" else ", step: 1"
        public = ", public: yes" if name == "foil" else ""
        lines.append(f"  - {{file: {name}.jpg, alt: 'Seen: {name}.', person: no{step}{public}}}\n")
    book.add(TECHNIQUE_FILE, "".join(lines))
    judgement = judge(book.root, DAY)
    assert judgement.findings == []
    made = {"recipes": book.root}
    config = house_config(book)
    for audience in ("team", "public"):
        made[audience] = root / audience
        warnings: list[str] = []
        build_into(
            made[audience],
            config,
            Judgement(judgement.book, []),
            warnings.append,
            audience=audience,
        )
        assert [each for each in warnings if "site_url" not in each] == []
    return made


LARGEST = tuple(f"-{width}.webp" for width in WIDEST.values())


def copies(site: Path) -> list[Path]:
    return sorted((site / "pictures").glob("*"))


@pytest.mark.long
def test_each_has_its_sizes(sites: dict[str, Path]) -> None:
    names = [re.sub("-[0-9a-f]{10}-", "-", each.name) for each in copies(sites["team"])]
    wanted = [
        f"{name}-{end}"
        for name in PHOTOGRAPHS
        for end in ("480.webp", "960.jpg", "960.webp", f"{WIDEST[name]}.webp")
    ]
    assert sorted(names) == sorted(wanted)


def test_a_copy_is_smaller_than_what_was_taken(sites: dict[str, Path]) -> None:
    taken = sum(each.stat().st_size for each in (sites["recipes"] / "pictures").iterdir())
    largest = sum(each.stat().st_size for each in copies(sites["team"]) if each.name.endswith(LARGEST))
    assert largest < taken / 2


def test_nothing_of_camera_and_place_is_left(sites: dict[str, Path]) -> None:
    """Read back with Pillow, and looked for in the bytes of every file of the site."""
    original = (sites["recipes"] / "pictures" / "back.jpg").read_bytes()
    with Image.open(io.BytesIO(original)) as taken:
        assert taken.getexif().get_ifd(GPS) and CAMERA in original
    for path in copies(sites["team"]):
        with Image.open(path) as picture:
            assert not picture.getexif() and not {"icc_profile", "comment", "xmp"} & picture.info.keys()
    for path in sites["team"].rglob("*"):
        assert path.is_dir() or (CAMERA not in path.read_bytes() and b"Maria" not in path.read_bytes()), path


def test_one_that_was_stored_lying_stands(sites: dict[str, Path]) -> None:
    (path,) = (sites["team"] / "pictures").glob("back-*-480.webp")
    with Image.open(path) as picture:
        assert picture.size == (480, 640)
    (page,) = (sites["team"] / "techniques" / "painting").glob("index.html")
    (tag,) = re.findall(r'<img src="[^"]*/back-[^>]*>', page.read_text(encoding="utf-8"))
    assert 'width="960" height="1280"' in tag and 'loading="lazy"' in tag and 'alt="Seen: back."' in tag


def test_the_steps_pictures_stand_in_the_step(sites: dict[str, Path]) -> None:
    page = (sites["team"] / "techniques" / "painting" / "index.html").read_text(encoding="utf-8")
    (step,) = re.findall(r"<li><p>Paint from the ends upwards\.</p>(.*?)</li>", page, re.S)
    assert step.count("<figure") == 2 and page.count('<figure class="bb-picture"') == 3


def test_the_public_gets_what_says_so(sites: dict[str, Path]) -> None:
    assert {each.name.split("-")[0] for each in copies(sites["public"])} == {"foil"}
    page = (sites["public"] / "techniques" / "painting" / "index.html").read_text(encoding="utf-8")
    assert "Seen: foil." in page and "Seen: back." not in page


def test_the_phone_keeps_the_small_size(sites: dict[str, Path]) -> None:
    kept = {name for name in packed_files(sites["team"]) if name.startswith("pictures/")}
    assert kept == {
        f"pictures/{each.name}" for each in copies(sites["team"]) if each.name.endswith("-480.webp")
    }


def test_a_book_without_pictures_asks_nothing_of_the_library(tmp_path: Path) -> None:
    book = SmallBook(tmp_path / "recipes")
    assert mends_without_pillow(book.root) == []
    write_photograph(book.root, "back.jpg")
    assert mends_without_pillow(book.root) == ['Install it: pip install "bowlbook[pictures]".']


def mends_without_pillow(recipes: Path) -> list[str]:
    """What to do about each finding of a book, on a machine without Pillow."""
    code = (
        "import sys; sys.modules['PIL'] = None\n"
        "from datetime import date; from pathlib import Path; from bowlbook.checks.judge import judge\n"
        f"found = judge(Path({str(recipes)!r}), date(2026, 11, 25)).findings\n"
        "print(*[each.mend for each in found], sep='\\n')"
    )
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    return said.splitlines() if said.strip() else []
