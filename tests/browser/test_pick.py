"""Pick by hair on the phone: the answers of Python, to the word and in order; taps, address, fallback."""

import json
import os
import random

import pytest
from tests.browser.conftest import PHONE, Watched
from tests.browser.shared_pages import Open

from bowlbook.book.book import Book
from bowlbook.commands.match import answer_data
from bowlbook.entries.facets import FACETS
from bowlbook.figures.bowl import ladder_of, mix
from bowlbook.figures.head import DOMAINS, PLACES, Head, head_with
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.figures.verdict import consult, practice_of
from bowlbook.pages.pick_data import pick_data

HEADS = 2_000 if os.environ.get("BOWLBOOK_LONG") else 150
"""As many as the everyday run has time for; `.ci/run` asks for all."""

ASK = """async ([address, data, heads]) => {
  const { answer } = await import(address + 'match.js');
  const book = JSON.parse(data);
  return JSON.stringify(JSON.parse(heads).map((head) => answer(book, head)));
}"""


def heads(count: int, seed: int) -> list[dict[str, list[object]]]:
    """Heads drawn at random: each facet of hair unsaid half the time and the rest mostly; one value mostly,
    now and then several."""
    draw = random.Random(seed)
    found = []
    for _ in range(count):
        head = {}
        for facet in PLACES:
            if facet != "reach" and draw.random() < (0.5 if facet in FACETS else 0.15):
                many = 1 if draw.random() < 0.8 else draw.randint(2, 3)
                values = DOMAINS[facet]
                head[facet] = sorted(draw.sample(values, min(many, len(values))), key=values.index)
        found.append(head)
    return found


def data_of(book: Book) -> dict[str, object]:
    """The data of Pick by hair, its bowls mixed here."""
    bowls = {}
    for blend in (each for each in book.blends.values() if not each.tones):
        unit, batch, step = ladder_of(book, blend)[0]
        places = decimals_of(step)
        shown = [
            (None if each.role == "developer" else each.product.name, fixed(each.scale_shows, places))
            for each in mix(book, blend, unit, batch, step).pours
        ]
        bowls[blend.id] = (f"{fixed(batch, places)} {unit}", shown)
    names = {
        "blend": {each.id: each.name for each in book.blends.values()},
        "technique": {each.id: each.name for each in book.techniques.values()},
    }
    return pick_data(book, practice_of(book), names, bowls)


def said(head: dict[str, list[object]]) -> Head:
    return head_with(**{name: sum(1 << DOMAINS[name].index(each) for each in head[name]) for name in head})


@pytest.mark.parametrize("name", ["demo_book", "small_book"])
def test_phone_and_python_agree(
    watched: Watched, address: str, asset_address: str, name: str, request: pytest.FixtureRequest
) -> None:
    """The verdict and what comes first, the visits, what to ask next, and every recipe with its reasons."""
    book: Book = request.getfixturevalue(name)
    practice = practice_of(book)
    data = json.dumps(data_of(book))
    asked = heads(HEADS, seed=20261125)
    watched.page.goto(address + "pick/")
    verdicts, suiting = set(), 0
    for start in range(0, HEADS, 200):
        part = asked[start : start + 200]
        answers = json.loads(watched.page.evaluate(ASK, [asset_address, data, json.dumps(part)]))
        for head, phone in zip(part, answers, strict=True):
            python = answer_data(book, practice, said(head), consult(practice, said(head)))
            for each in phone["answers"]:
                del each["name"], each["instead_kind"]
            assert phone == python, head
            verdicts.add(phone["verdict"])
            suiting += any(each["suits"] for each in phone["answers"])
    assert suiting > 3 and verdicts >= {"go", "test first", "not today"}  # the heads are not all of one kind
    assert watched.faults == []


def test_the_site_carries_the_data_of_the_book(demo_site, demo_book) -> None:
    names = json.loads((demo_site / "data" / "names.json").read_text(encoding="utf-8"))
    text = (demo_site / "data" / names["pick"]).read_text(encoding="utf-8")
    assert json.loads(text) == json.loads(json.dumps(data_of(demo_book)))


def test_three_taps_give_the_bowl(watched: Watched, address: str) -> None:
    """Level 4, coarse, cool: the first answer and its bowl stand at the top after the third tap."""
    page = watched.page
    page.goto(address + "pick/")
    for facet, value in (("natural_level", "4"), ("texture", "coarse"), ("tone", "cool")):
        page.locator(f"[data-facet={facet}] input[value='{value}'] + label").tap()
    first = page.locator("#bb-first")
    assert first.locator("b").all_inner_texts() == ["0.33 oz", "0.50 oz", "1.50 oz"]
    box = first.bounding_box()
    assert box["y"] + box["height"] <= 844
    assert page.url.endswith("?natural_level=4&tone=cool&texture=coarse") or "texture=coarse" in page.url
    page.locator("#bb-first .bb-choice").tap()
    assert page.locator(".bb-shows").first.inner_text() == "0.33"


def test_the_pinned_answer_names_what_it_shows(watched: Watched, small_address: str) -> None:
    """A blend is written with 20 volume, the technique that it is placed with takes 40: 40 is shown."""
    page = watched.page
    page.goto(small_address + "pick/?natural_level=4&texture=coarse")
    first = page.locator("#bb-first")
    first.get_by_role("link", name="Violet in foil, placed with Wide foils").wait_for()
    shown = [text.split("\n") for text in first.locator("li:has(b)").all_inner_texts()]
    assert shown == [
        ["Violet powder", "0.65 oz"],
        ["Plain clay", "1.00 oz"],
        ["Strong cream, 40 volume", "3.00 oz"],
    ]
    assert first.locator(".bb-mind li").all_inner_texts() == [
        "Open the hottest foil first.",
        "Keep two fingers off the scalp.",
    ]
    assert "For foil" in first.inner_text() and "2 cautions" in first.inner_text()
    listed = page.locator("#bb-answer .bb-answers > li").first
    assert "With Strong cream, 40 volume; foil." in listed.inner_text()
    assert "Keep two fingers off the scalp." in listed.inner_text()
    assert watched.faults == []


def test_cautions_that_the_pinned_answer_cuts_are_one_tap_away(watched: Watched, small_address: str) -> None:
    """The box has one height: on a small phone the cautions do not fit, and its foot says so."""
    page = watched.page
    page.set_viewport_size({"width": 360, "height": 640})
    page.goto(small_address + "pick/?natural_level=4&texture=coarse")
    first = page.locator("#bb-first")
    link = first.get_by_role("link", name="Read all 2 cautions")
    box, within = link.bounding_box(), first.bounding_box()
    assert first.evaluate("box => box.scrollHeight > box.clientHeight")
    assert box["y"] + box["height"] <= within["y"] + within["height"] + 1 <= 641
    link.tap()
    caution = page.locator("#bb-answer .bb-mind li", has_text="Keep two fingers off the scalp.").first
    caution.wait_for()
    page.wait_for_function("scrollY > 0")
    place = caution.bounding_box()
    assert 0 < place["y"] < place["y"] + place["height"] <= 640
    assert page.url.endswith("#answer") and watched.faults == []


def test_what_to_take_instead_leads_to_its_own_page(watched: Watched, small_address: str) -> None:
    """The house's rule against a technique names a blend: the link leads to the blend."""
    page = watched.page
    page.goto(small_address + "pick/?curl=coily&natural_level=7")
    techniques = page.locator("#bb-answer > section", has_text="Techniques")
    techniques.get_by_text("Not, and why not").click()
    instead = techniques.get_by_role("link", name="Instead: Soft clay three to one")
    assert instead.get_attribute("href") == "../blends/soft-clay/"
    assert watched.faults == []


@pytest.mark.parametrize("width, height", [(360, 640), (390, 844)])
def test_no_tap_moves_a_chip(open_page: Open, small_address: str, width: int, height: int) -> None:
    """Every chip stays where it was, whatever the answer needs; and the last one is not under the answer."""
    page = open_page({"width": width, "height": height})
    page.goto(small_address + "pick/")
    page.locator("#bb-pick").wait_for()
    page.evaluate("scrollTo(0, 120)")
    boxes = "() => [scrollY, ...[...document.querySelectorAll('#bb-pick label')]"
    boxes += ".map(e => e.getBoundingClientRect())"
    boxes += ".map(({x, y, width, height}) => [x, y, width, height].map(Math.round).join(' '))]"
    before = page.evaluate(boxes)
    for facet, value in (("natural_level", "4"), ("natural_level", "9"), ("texture", "coarse")):
        chip = f"[data-facet={facet}] [value='{value}'] + label"
        page.locator(chip).evaluate("label => label.click()")
        page.wait_for_timeout(0)
        assert page.evaluate(boxes) == before, (facet, value)
    last = page.locator("#bb-pick [data-facet=area] label").last
    last.click()  # the driver refuses a target that something else covers, and scrolls to uncover it
    assert page.locator("[data-facet=area] input:checked").count() == 1


def test_the_space_bar_takes_a_chosen_chip_back(watched: Watched, small_address: str) -> None:
    page = watched.page
    page.goto(small_address + "pick/")
    chip = page.locator("[data-facet=texture] input[value=medium]")
    chip.focus()
    page.keyboard.press("Space")
    assert chip.is_checked() and page.url.endswith("?texture=medium")
    page.keyboard.press("Space")
    assert not chip.is_checked() and page.url.endswith("/pick/")
    page.keyboard.press("Space")
    page.keyboard.press("ArrowRight")  # to the next word of the same row
    assert page.url.endswith("?texture=coarse")
    page.keyboard.press("Space")
    assert page.locator("#bb-pick input:checked").count() == 0


def test_a_tap_is_taken_back_and_the_address_carries_the_state(watched: Watched, address: str) -> None:
    page = watched.page
    page.goto(address + "pick/?texture=fine&porosity=high")
    assert page.locator("[data-facet=texture] input:checked").get_attribute("value") == "fine"
    assert page.locator("[data-facet=porosity]").is_visible()
    page.locator("#bb-answer .bb-recipe", has_text="fine hair, high porosity").wait_for()
    page.locator("[data-facet=texture] input[value=fine] + label").tap()
    assert page.locator("[data-facet=texture] input:checked").count() == 0
    assert page.url.endswith("?porosity=high")
    page.get_by_role("button", name="Start again").tap()
    page.wait_for_function("() => location.search === ''")


def test_nothing_to_lift_is_said(watched: Watched, address: str) -> None:
    """More lift than there is room for is refused; a level that the hair is past is a wish for a toner."""
    page = watched.page
    page.goto(address + "pick/?natural_level=9&lift=4")
    page.locator("#bb-first [data-verdict='not today']", has_text="do not go together").wait_for()
    page.goto(address + "pick/?natural_level=8&target_level=6")
    page.locator("#bb-first [data-verdict='tone only']").wait_for()


def test_without_scripts_pick_by_hair_is_a_list_of_pages(open_page: Open, address: str, demo_site) -> None:
    page = open_page(PHONE, scripts=False)
    page.goto(address + "pick/")
    assert not page.locator("#bb-pick").is_visible()
    links = page.locator("#bb-without a")
    assert links.count() >= 50
    page.get_by_role("link", name="Coarse hair").click()
    assert page.locator("h1").inner_text() == "Coarse hair"


STOPS = [
    ("person", "under 16", "Under 16"),
    ("person", "sore scalp", "scalp"),
    ("wearing", "extensions", "Extensions"),
]


@pytest.mark.parametrize(("facet", "value", "words"), STOPS, ids=[value for _, value, _ in STOPS])
def test_a_tapped_stop_takes_every_figure_away(
    watched: Watched, address: str, facet: str, value: str, words: str
) -> None:
    """Ordinary hair has a bowl in sight; one tap under "Stop if" leaves the refusal alone, and no trace."""
    page = watched.page
    page.goto(address + "pick/?natural_level=7&lift=2&texture=medium&tone=cool")
    first = page.locator("#bb-first")
    first.locator("b").first.wait_for()
    page.locator(f"[data-facet={facet}] input[value='{value}'] + label").tap()
    page.locator("#bb-answer [data-verdict='not today'] li").first.wait_for()
    assert first.inner_text().startswith("Not today.") and words in first.inner_text()
    assert first.locator("b").count() == 0 and first.get_by_role("link").count() == 0
    assert page.locator("#bb-answer .bb-answers").count() == 0
    assert facet not in page.url and value.split()[0] not in page.url
    page.reload()
    first.locator("b").first.wait_for()
    assert not page.locator(f"[data-facet={facet}] input[value='{value}']").is_checked()
    assert page.evaluate("JSON.stringify({...localStorage, ...sessionStorage})").find(value) < 0
    assert watched.faults == []


@pytest.mark.parametrize("stop", ["history=metallic dye", "condition=breaking", "condition=stretchy"])
def test_hair_that_is_stopped_gets_no_figure(watched: Watched, address: str, stop: str) -> None:
    page = watched.page
    page.goto(f"{address}pick/?natural_level=7&lift=2&tone=cool&{stop}")
    page.locator("#bb-answer [data-verdict='not today'] li").first.wait_for()
    assert page.locator("#bb-first b").count() == 0 and page.locator("#bb-answer .bb-answers").count() == 0
    assert watched.faults == []
