"""looser-than-shared: a product in the place of a shared one allows no more, and warns of no less."""

from pathlib import Path

import pytest

from checks.small_book import CLAY_FILE, DEVELOPER_FILE, HOUSE_FILE, SmallBook


@pytest.fixture
def sharing(book: SmallBook) -> SmallBook:
    """The small book with its clay and developer shared, and its own in the place of each."""
    for file in (CLAY_FILE, DEVELOPER_FILE):
        shared = book.root.parent / file
        shared.parent.mkdir(exist_ok=True)
        text = book.texts[file].replace("priced_on", "currency: CAD, priced_on")
        shared.write_text(text, encoding="utf-8")
        book.add(file, "instead_of_shared: yes\n")
    book.add(HOUSE_FILE, "products_from: ../products\n")
    return book


def share(book: SmallBook, file: str, old: str, new: str) -> None:
    path = Path(book.root.parent / file)
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_the_same_and_another_price_are_fine(sharing: SmallBook) -> None:
    sharing.shows(findings=0)
    sharing.edit(CLAY_FILE, "39.00", "44.00")
    sharing.edit(CLAY_FILE, "Plain clay", "Clay of the salon")
    sharing.shows(findings=0)


@pytest.mark.parametrize(
    ("file", "shared", "own", "looser"),
    [
        (
            CLAY_FILE,
            ("40 volume", "20 volume"),
            "developer_limit: 40",
            "developer_limit: «looser-than-shared»40",
        ),
        (CLAY_FILE, ("lifts: 5", "lifts: 4"), "lifts: 5", "lifts: «looser-than-shared»5"),
        (CLAY_FILE, ("[open-air]", "[foil]"), "[open-air]", "«looser-than-shared»[open-air]"),
        (CLAY_FILE, ("from: 1:1.5", "from: 1:1.8"), "from: 1:1.5", "from: «looser-than-shared»1:1.5"),
        (CLAY_FILE, ("to: 1:2.5", "to: 1:2.2"), "to: 1:2.5", "to: «looser-than-shared»1:2.5"),
        (CLAY_FILE, ("form: clay", "form: powder"), "form: clay", "form: «looser-than-shared»clay"),
        (DEVELOPER_FILE, ("volume: 20", "volume: 30"), "volume: 20", "volume: «looser-than-shared»20"),
        (DEVELOPER_FILE, ("6 %", "9 %"), "6 %", "«looser-than-shared»6 %"),
        (DEVELOPER_FILE, ("1.02", "1.03"), "1.02", "«looser-than-shared»1.02"),
    ],
)
def test_a_stricter_shared_field(
    sharing: SmallBook, file: str, shared: tuple[str, str], own: str, looser: str
) -> None:
    share(sharing, file, *shared)
    sharing.edit(file, own, looser)
    sharing.shows(findings=1)


@pytest.mark.parametrize(
    ("old", "new"),
    [("40 volume", "30 volume"), ("lifts: 5", "lifts: 4"), ("from: 1:1.5", "from: 1:1.6")],
)
def test_a_stricter_one_of_the_book_s_own(sharing: SmallBook, old: str, new: str) -> None:
    sharing.edit(CLAY_FILE, old, new)
    sharing.shows(findings=0)


def test_a_limit_or_a_hazard_left_out(sharing: SmallBook) -> None:
    share(sharing, CLAY_FILE, "lifts: 5", "lifts: 5\nhazards: [Dusty., Not on skin.]")
    sharing.edit(CLAY_FILE, "developer_limit: 40 volume\n", "hazards: [Dusty.]\n")
    sharing.edit(CLAY_FILE, "name: ", "«looser-than-shared»name: ")
    sharing.edit(CLAY_FILE, "hazards: ", "hazards: «looser-than-shared»")
    found = sharing.shows(findings=2)
    assert "it warns: Not on skin." in str([each.message for each in found])


def test_another_kind_is_reported_alone(sharing: SmallBook) -> None:
    toner = "name: Gloss\nkind: toner\nform: gel\ntone: [cool]\nmixing_ratio: {usual: 1:1}\n"
    (sharing.root.parent / CLAY_FILE).write_text(toner, encoding="utf-8")
    sharing.edit(CLAY_FILE, "kind: ", "kind: «looser-than-shared»")
    sharing.shows(findings=1)
