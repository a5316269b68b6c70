"""Pick by hair on the phone: the answers of Python, to the word and in order; taps, address, fallback."""

import json
import random
import re
from pathlib import Path

import pypdfium2
import pytest
from playwright.sync_api import Locator, Page, expect
from tests.browser.conftest import PHONE, Watched
from tests.browser.shared_pages import Open
from tests.seeds import rows_with_long, with_long
from tests.yaml_file import yaml_file

from bowlbook.book.book import Book
from bowlbook.book.current import current
from bowlbook.commands.match import answer_data
from bowlbook.entries.facets import FACETS
from bowlbook.figures.answer import answer_to
from bowlbook.figures.bowl import ladder_of, mix
from bowlbook.figures.head import DOMAINS, PLACES, Head, head_with, values_of
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.figures.stop import STOP
from bowlbook.figures.verdict import practice_of
from bowlbook.pages.pick_data import pick_data
from bowlbook.pages.pick_page import volumes_to_tap
from bowlbook.pages.pick_recipe import shown_from
from bowlbook.wording.stop_list import STOP_LIST, stop_list_of
from figures.said import head_from

EVERYDAY, ALL = 100, 5_000
JUDGED = Path(__file__).parents[1] / "figures"
Said = dict[str, list[object]]

ASK = Path(__file__).with_name("whole_answer.js").read_text(encoding="utf-8")


def heads(count: int, seed: int) -> list[Said]:
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
    for blend in (each for each in current(book.blends).values() if not each.tones):
        unit, batch, step = ladder_of(book, blend)[0]
        places = decimals_of(step)
        shown = [
            (None if each.role == "developer" else each.product.name, fixed(each.scale_shows, places))
            for each in mix(book, blend, unit, batch, step).pours
        ]
        bowls[blend.id] = (f"{fixed(batch, places)} {unit}", shown)
    recipes = [
        shown
        for kind in ("blend", "technique")
        for entry_id in book.of_kind(kind)
        for shown in shown_from(book, kind, entry_id)
    ]
    return pick_data(practice_of(book), recipes, bowls)


def said(head: Said) -> Head:
    return head_with(**{name: sum(1 << DOMAINS[name].index(each) for each in head[name]) for name in head})


@pytest.mark.parametrize(
    ("name", "count"),
    rows_with_long(
        [("demo_book", EVERYDAY), ("small_book", EVERYDAY)], [("demo_book", ALL), ("small_book", ALL)]
    ),
)
def test_phone_and_python_agree(
    watched: Watched, address: str, asset_address: str, name: str, count: int, request: pytest.FixtureRequest
) -> None:
    """The verdict and what comes first, the visits, what to ask next, and every recipe with its reasons."""
    book: Book = request.getfixturevalue(name)
    watched.page.goto(address + "pick/")
    verdicts, suiting = agreed(watched.page, asset_address, book, heads(count, seed=20261125))
    assert suiting >= 3 and verdicts >= {"go", "test first", "not today"}  # the heads are not all of one kind
    assert watched.faults == []


def agreed(page: Page, asset_address: str, book: Book, asked: list[Said]) -> tuple[set[str], int]:
    """Ask the phone and Python the same heads; the verdicts, and how many heads have an answer."""
    practice = practice_of(book)
    data = json.dumps(data_of(book))
    verdicts, suiting = set(), 0
    for start in range(0, len(asked), 200):
        part = asked[start : start + 200]
        answers = json.loads(page.evaluate(ASK, [asset_address, data, json.dumps(part)]))
        for head, phone in zip(part, answers, strict=True):
            python = answer_data(book, practice, said(head), answer_to(practice, said(head)))
            for each in phone["answers"]:
                del each["name"], each["instead_kind"]
            assert phone == python, head
            verdicts.add(phone["verdict"])
            suiting += any(each["suits"] for each in phone["answers"])
    return verdicts, suiting


@pytest.mark.parametrize("name", with_long(["odd_heads.yml"], ["heads.yml"]))
def test_judged_heads_get_the_same_answer_on_the_phone(
    watched: Watched, address: str, asset_address: str, demo_book: Book, name: str
) -> None:
    judged = yaml_file(JUDGED / name)
    asked = [
        {
            facet: list(values_of(facet, bits))
            for facet, bits in zip(PLACES, head_from(each["head"]), strict=True)
            if bits
        }
        for each in judged
    ]
    watched.page.goto(address + "pick/")
    verdicts, _ = agreed(watched.page, asset_address, demo_book, asked)
    assert verdicts >= {"go", "tone only", "test first", "not today"}
    assert watched.faults == []


def test_the_site_carries_the_data_of_the_book(demo_site, demo_book) -> None:
    names = json.loads((demo_site / "data" / "names.json").read_text(encoding="utf-8"))
    text = (demo_site / "data" / names["pick"]).read_text(encoding="utf-8")
    assert json.loads(text) == json.loads(json.dumps(data_of(demo_book)))


def cleared(watched: Watched, address: str) -> tuple[Page, Locator]:
    """Pick by hair at an address, with the list of stops answered: the page, and its pinned answer."""
    page = watched.opened(address)
    page.locator("#bb-none").click()
    return page, page.locator("#bb-first")


def house_list(book: Book) -> tuple[tuple[str, str, str], ...]:
    practice = practice_of(book)
    return stop_list_of(practice.stops, volumes_to_tap(practice))


def test_what_only_this_house_stops_is_in_the_list(watched: Watched, address: str) -> None:
    """The demo house puts no lightener on white hair: as a word of hair it is in the address."""
    page = watched.opened(address + ORDINARY)
    tap_stop(page, "all of it grey")
    page.locator("#bb-answer [data-verdict='not today'] li").first.wait_for()
    assert "All white" in page.locator("#bb-first").inner_text()
    assert page.locator(FIGURES).count() == 0
    assert page.locator("[data-facet=grey] [value=all]").is_checked() and "grey=all" in page.url
    tap_stop(page, "all of it grey")
    page.locator("#bb-none").click()
    assert page.locator("#bb-first").inner_text().startswith("Go.")


def tap_stop(page: Page, words: str) -> None:
    page.locator("#bb-stops label").get_by_text(words, exact=True).click()


def test_three_taps_give_the_bowl(watched: Watched, address: str) -> None:
    """Level 4, coarse, cool: the first answer and its bowl are pinned. A third word of the same head, tapped
    after the list, asks nothing again."""
    page = watched.opened(address)
    page.locator("a[href$='pick/']:visible").first.tap()
    for facet, value in (("natural_level", "4"), ("texture", "coarse")):
        assert not page.locator("#bb-stops").is_visible()
        page.locator(f"[data-facet={facet}] input[value='{value}'] + label").tap()
        assert page.locator(FIGURES).count() == 0
    expect(page.locator("#bb-answer")).to_contain_text("First the list")
    page.locator("#bb-none").tap()
    page.locator("[data-facet=tone] input[value=cool] + label").tap()
    first = page.locator("#bb-first")
    assert first.locator("b").all_inner_texts() == ["0.33 oz", "0.50 oz", "1.50 oz"]
    box = first.bounding_box()
    assert box["y"] + box["height"] <= 844
    assert page.url.endswith("?natural_level=4&tone=cool&texture=coarse") or "texture=coarse" in page.url
    page.locator("#bb-first .bb-choice").tap()
    assert page.locator(".bb-shows").first.inner_text() == "0.33"


def test_the_pinned_answer_names_what_it_shows(watched: Watched, small_address: str) -> None:
    """A blend is written with 20 volume, the technique that it is placed with takes 40: 40 is shown."""
    page, first = cleared(watched, small_address + "pick/?natural_level=4&texture=coarse")
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


def whole_cautions(first: Locator) -> list[str]:
    """The cautions that are shown in the pinned answer, each of them whole above its foot."""
    foot = first.locator(".bb-in-full").bounding_box()
    assert foot
    shown = [each for each in first.locator(".bb-mind li").all() if each.is_visible()]
    for each in shown:
        place = each.bounding_box()
        assert place and place["y"] + place["height"] <= foot["y"] + 1
    return [each.inner_text() for each in shown]


def test_cautions_that_the_pinned_answer_cuts_are_one_tap_away(watched: Watched, small_address: str) -> None:
    """The box has one height: on a small phone the cautions do not fit, and its foot leads to them. None is
    shown to half of it."""
    watched.page.set_viewport_size({"width": 360, "height": 640})
    page, first = cleared(watched, small_address + "pick/?natural_level=4&texture=coarse")
    link = first.get_by_role("link", name="Read all 2 cautions")
    box, within = link.bounding_box(), first.bounding_box()
    assert first.evaluate("box => box.scrollHeight > box.clientHeight")
    assert box["y"] + box["height"] <= within["y"] + within["height"] + 1 <= 641
    assert whole_cautions(first) == []
    page.set_viewport_size({"width": 390, "height": 844})
    expect(first.locator(".bb-mind li").first).to_be_visible()
    assert whole_cautions(first)[0] == "Open the hottest foil first."
    page.set_viewport_size({"width": 360, "height": 640})
    expect(first.locator(".bb-mind li").first).to_be_hidden()
    link.tap()
    caution = page.locator("#bb-answer .bb-mind li", has_text="Keep two fingers off the scalp.").first
    caution.wait_for()
    page.wait_for_function("() => scrollY > 0")
    place = caution.bounding_box()
    assert 0 < place["y"] < place["y"] + place["height"] <= 640
    assert page.url.endswith("#answer") and watched.faults == []


def test_figures_for_unusual_hair_wait_until_it_is_said(watched: Watched, address: str) -> None:
    """A recipe for the regrowth; and, for a coarse level 8, one for ends that were lightened before."""
    page, first = cleared(watched, address + "pick/?natural_level=5&placement=on-scalp")
    expect(first).to_contain_text("Only for the scalp regrowth. Say so first, then its figures are shown.")
    expect(first.locator(".bb-readings")).to_have_count(0)
    page.locator("[data-facet=area] [value='scalp regrowth'] + label").click()
    expect(first.locator(".bb-readings")).to_have_count(1)
    expect(first).not_to_contain_text("Only for")
    cleared(watched, address + "pick/?natural_level=8&texture=coarse")
    expect(first).to_contain_text("Only for")
    expect(first.locator(".bb-readings")).to_have_count(0)
    assert watched.faults == []


@pytest.mark.long
def test_what_to_take_instead_leads_to_its_own_page(watched: Watched, small_address: str) -> None:
    """The house's rule against a technique names a blend: the link leads to the blend."""
    page, _ = cleared(watched, small_address + "pick/?curl=coily&natural_level=7")
    techniques = page.locator("#bb-answer > section", has_text="Techniques")
    techniques.get_by_text("Not, and why not").click()
    instead = techniques.get_by_role("link", name="Instead: Soft clay three to one")
    assert instead.get_attribute("href") == "../blends/soft-clay/"
    assert watched.faults == []


@pytest.mark.long
@pytest.mark.parametrize("width, height", [(360, 640), (390, 844)])
def test_no_tap_moves_a_chip(open_page: Open, small_address: str, width: int, height: int) -> None:
    """Every chip stays where it was, whatever the answer needs; and the last one is not under the answer."""
    page = open_page({"width": width, "height": height}, small_address + "pick/")
    page.locator("#bb-pick").wait_for()
    page.evaluate("scrollTo(0, 120)")
    boxes = "() => [scrollY, ...[...document.querySelectorAll('#bb-pick :not(#bb-stops) > label')]"
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


@pytest.mark.long
def test_the_space_bar_takes_a_chosen_chip_back(watched: Watched, small_address: str) -> None:
    page = watched.opened(small_address + "pick/")
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


@pytest.mark.long
def test_a_tap_is_taken_back_and_the_address_carries_the_state(watched: Watched, address: str) -> None:
    page, _ = cleared(watched, address + "pick/?texture=fine&porosity=high")
    assert page.locator("[data-facet=texture] input:checked").get_attribute("value") == "fine"
    assert page.locator("[data-facet=porosity]").is_visible()
    page.locator("#bb-answer .bb-recipe", has_text="fine hair, high porosity").wait_for()
    page.locator("[data-facet=texture] input[value=fine] + label").tap()
    assert page.locator("[data-facet=texture] input:checked").count() == 0
    assert page.url.endswith("?porosity=high")
    page.get_by_role("button", name="Start again").tap()
    page.wait_for_function("() => location.search === ''")


@pytest.mark.long
def test_nothing_to_lift_is_said(watched: Watched, address: str) -> None:
    """More lift than there is room for is refused; a level that the hair is past is a wish for a toner."""
    page = watched.opened(address + "pick/?natural_level=9&lift=4")
    page.locator("#bb-first [data-verdict='not today']", has_text="do not go together").wait_for()
    cleared(watched, address + "pick/?natural_level=8&target_level=6")
    page.locator("#bb-first [data-verdict='tone only']").wait_for()


def test_without_scripts_pick_by_hair_is_a_list_of_pages(open_page: Open, address: str, demo_site) -> None:
    page = open_page(PHONE, address + "pick/", scripts=False)
    assert not page.locator("#bb-pick").is_visible()
    links = page.locator("#bb-without a")
    assert links.count() >= 50
    page.get_by_role("link", name="Coarse hair").click()
    assert page.locator("h1").inner_text() == "Coarse hair"


STOPS = [
    ("person", "under 16", "under 16", "Under 16"),
    ("person", "sore scalp", "sore or broken scalp", "scalp"),
    ("wearing", "extensions", "extensions or braids in", "Extensions"),
]
ORDINARY = "pick/?natural_level=7&lift=2&texture=medium&tone=cool"
KEPT_SOMEWHERE = """async () => JSON.stringify([location.href, history.state, document.cookie,
  {...localStorage}, {...sessionStorage}, (await indexedDB.databases()).map((each) => each.name)])"""
FIGURES = "#bb-first b, #bb-answer .bb-answers, #bb-answer .bb-readings, #bb-first .bb-choice"


def test_a_tapped_stop_takes_every_figure_away(watched: Watched, address: str) -> None:
    """Ordinary hair has a bowl in sight; the list opened again and one tap leave the refusal alone."""
    page, first = cleared(watched, address + ORDINARY)
    for facet, value, tapped, words in STOPS:
        first.locator("b").first.wait_for()
        first.get_by_role("button", name="Stop if").click()
        tap_stop(page, tapped)
        page.locator("#bb-answer [data-verdict='not today'] li").first.wait_for()
        assert first.inner_text().startswith("Not today.") and words in first.inner_text()
        assert page.locator(FIGURES).count() == 0
        assert facet not in page.url and value.split()[0] not in page.url
        page.reload()
        page.locator("#bb-stops").wait_for()
        assert not page.locator(f"#bb-stops input[name={facet}][value='{value}']").is_checked()
        page.locator("#bb-none").click()
    assert watched.faults == []


def test_hair_that_is_stopped_gets_no_figure(watched: Watched, address: str) -> None:
    page = watched.page
    for stop in ("history=metallic dye", "condition=breaking", "condition=stretchy"):
        page.goto(f"{address}pick/?natural_level=7&lift=2&tone=cool&{stop}")
        page.locator("#bb-answer [data-verdict='not today'] li").first.wait_for()
        assert page.locator(FIGURES).count() == 0, stop
    assert watched.faults == []


def test_every_usual_stop_refuses_on_the_phone_too(
    watched: Watched, address: str, asset_address: str, demo_book: Book
) -> None:
    """The very heads that the stops name, each asked of the phone."""
    stops = [each for each in practice_of(demo_book).stops if each.effect == STOP]
    asked = [
        {PLACES[place]: list(values_of(PLACES[place], bits)) for place, bits in enumerate(each.when) if bits}
        for each in stops
    ]
    watched.page.goto(address + "pick/")
    args = [asset_address, json.dumps(data_of(demo_book)), json.dumps(asked)]
    found = json.loads(watched.page.evaluate(ASK, args))
    for stop, answer in zip(stops, found, strict=True):
        assert answer["verdict"] == "not today" and stop.do in [each["do"] for each in answer["before"]]
        assert answer["answers"] == []
    assert len(found) > 20


def test_a_volume_over_what_the_hair_takes_is_refused(watched: Watched, address: str) -> None:
    """The row is under "More"; where it would change the answer it is asked next. Nothing of it is kept, and
    a page with a wish may be printed: it says nothing of a person."""
    head = "natural_level=7&texture=medium&area=hairline&history=virgin&condition=sound&porosity=low"
    page, first = cleared(watched, f"{address}pick/?{head}")
    assert "a wish for 20, 30, 40 volume? Then not today." in first.inner_text()
    page.locator("[data-facet=volume] [value='10'] + label").click()
    assert not first.inner_text().startswith("Not today.")
    page.locator("[data-facet=volume] [value='20'] + label").click()
    assert first.inner_text().startswith("Not today.") and "10 volume" in first.inner_text()
    assert page.locator(FIGURES).count() == 0
    assert "volume" not in page.url
    assert page.locator("#bb-pick.bb-personal").count() == 0
    page.locator("[data-facet=volume] [value='20'] + label").click()  # taken back
    assert not first.inner_text().startswith("Not today.")
    page.locator("[data-facet=area] [value=lengths] + label").click()
    page.locator("[data-facet=volume] [value='45'] + label").click()
    assert page.locator("[data-facet=volume] [value='45'] + label").inner_text() == "over 40"
    assert first.inner_text().startswith("Not today.")


@pytest.mark.long
@pytest.mark.parametrize("width, height", [(360, 640), (390, 844)])
def test_every_word_of_the_list_is_a_large_target_and_moves_none(
    open_page: Open, address: str, width: int, height: int, demo_book: Book
) -> None:
    page = open_page({"width": width, "height": height}, address + "pick/?natural_level=7&texture=medium")
    page.locator("#bb-stops").wait_for()
    boxes = """() => [...document.querySelectorAll('#bb-stops label, #bb-none')].map((each) => {
        const {x, y, width, height} = each.getBoundingClientRect();
        const top = document.getElementById('bb-first').getBoundingClientRect().y;
        return [x, y - top, width, height].map(Math.round);
      })"""
    found = page.evaluate(boxes)
    assert len(found) == len(house_list(demo_book)) + 1
    assert [each for each in found if each[2] < 44 or each[3] < 44 or each[0] + each[2] > width] == []
    page.locator("#bb-stops label", has_text="pregnant").evaluate("label => label.click()")
    page.locator("#bb-so-far", has_text="test first").wait_for()
    assert page.evaluate(boxes) == found


REFUSED = {
    "under 16": "Under 16: no lightener",
    "hair breaks": "The hair breaks",
    "metallic dye or grey restorer": "Metallic dye",
    "heat is to go on it": "No heat",
    "permed": "Permed less than four weeks ago, or nobody knows when",
}


def test_a_tap_in_the_list_refuses_at_once_and_can_be_taken_back(watched: Watched, address: str) -> None:
    page = watched.opened(address + ORDINARY)
    first = page.locator("#bb-first")
    for tapped, words in REFUSED.items():
        tap_stop(page, tapped)
        first.locator("[data-verdict='not today']", has_text=words).wait_for()
        assert page.locator(FIGURES).count() == 0, tapped
        assert page.locator("#bb-stops label:visible").all_inner_texts() == [tapped]
        tap_stop(page, tapped)
        expect(page.locator("#bb-none")).to_be_visible()
        assert page.locator(FIGURES).count() == 0, tapped


def test_weeks_since_a_perm_are_asked_where_they_decide(watched: Watched, address: str) -> None:
    page = watched.opened(address + ORDINARY)
    tap_stop(page, "permed")
    first = page.locator("#bb-first")
    first.get_by_text("How many weeks since").first.click()
    first.get_by_role("button", name="8 or more").click()
    page.locator("#bb-so-far", has_text="test first").wait_for()
    page.locator("#bb-none").click()
    assert first.inner_text().startswith("Test first.") and "weeks" not in page.url


@pytest.mark.parametrize(
    ("tapped", "heading"),
    rows_with_long(
        [("pregnant or nursing", "Only once whoever must be asked agrees, and the test is passed")],
        [("henna or plant colour", "Only once the test is passed")],
    ),
)
def test_figures_that_need_a_test_stand_behind_a_fold(
    watched: Watched, address: str, tapped: str, heading: str
) -> None:
    page = watched.opened(address + ORDINARY)
    tap_stop(page, tapped)
    page.get_by_role("button", name="None of the others").click()
    first, answer = page.locator("#bb-first"), page.locator("#bb-answer")
    assert first.inner_text().startswith("Test first.") and heading in first.inner_text()
    answer.locator("summary", has_text=heading).wait_for()
    assert page.locator(FIGURES).count() == 0
    answer.locator("summary", has_text=heading).click()
    answer.locator(".bb-answers").first.wait_for()
    first.locator("summary", has_text=heading).click()
    first.locator(".bb-choice, p:has-text('Nothing in this book')").first.wait_for()


@pytest.mark.long
def test_several_visits_are_headed_as_the_first(watched: Watched, address: str) -> None:
    page, first = cleared(
        watched, address + "pick/?natural_level=3&lift=6&texture=coarse&history=virgin&area=lengths"
    )
    assert first.inner_text().startswith("More than one visit.")
    heading = page.locator("#bb-answer h3", has_text="For the first visit, to level")
    heading.wait_for()
    assert heading.inner_text() + ":" in first.inner_text()
    assert page.locator("#bb-answer .bb-visits li").count() == 2
    cleared(watched, address + "pick/?lift=6&texture=coarse")
    assert "Say its level first" in first.inner_text() and page.locator(FIGURES).count() == 0


@pytest.mark.long
def test_tone_only_shows_what_tones_alone(watched: Watched, address: str, demo_book: Book) -> None:
    page, _ = cleared(watched, address + "pick/?natural_level=8&target_level=8&tone=cool")
    page.locator("#bb-answer section").first.wait_for()
    titles = page.locator("#bb-answer section h3").all_text_contents()
    assert titles and set(titles) <= {"To tone", "Toning techniques"}
    names = page.locator(
        "#bb-answer section:has(h3:text-is('To tone')) .bb-answers .bb-link-name"
    ).all_inner_texts()
    assert names and all(each.tones for each in current(demo_book.blends).values() if each.name in names)


def test_no_lift_is_a_tap_and_takes_every_lightener_away(watched: Watched, address: str) -> None:
    """As of ``bowlbook match --lift 0``; kept in the address like any lift."""
    page = watched.opened(address + "pick/?natural_level=9&tone=cool")
    page.locator("[data-facet=lift] label", has_text="none").click()
    page.locator("#bb-none").click()
    first = page.locator("#bb-first")
    expect(first).to_contain_text("Tone only")
    expect(first).to_contain_text("Pearl gloss")
    expect(page.locator("#bb-answer")).not_to_contain_text("Blend with its technique")
    expect(page).to_have_url(re.compile(r"[?&]lift=0(&|$)"))
    page.locator("[data-facet=lift] [value='1'] + label").click()
    expect(first).to_contain_text("Go")
    assert watched.faults == []


@pytest.mark.long
def test_another_head_is_asked_again_and_a_word_more_is_not(watched: Watched, address: str) -> None:
    page, _ = cleared(watched, address + "pick/?natural_level=7&texture=medium")
    for chip in (
        "[data-facet=tone] [value=cool]",
        "[data-facet=lift] [value='2']",
        "[data-facet=tone] [value=warm]",
    ):
        page.locator(f"{chip} + label").tap()
        assert not page.locator("#bb-stops").is_visible(), chip
    page.locator("[data-facet=natural_level] [value='8'] + label").tap()
    assert page.locator("#bb-stops").is_visible() and page.locator(FIGURES).count() == 0
    page.locator("#bb-none").tap()
    page.locator("[data-facet=natural_level] [value='8'] + label").tap()  # taken back
    page.locator("[data-facet=tone] [value=warm] + label").tap()
    page.locator("[data-facet=natural_level] [value='4'] + label").tap()
    assert page.locator("#bb-stops").is_visible() and page.locator(FIGURES).count() == 0
    page.locator("#bb-none").tap()
    page.locator("#bb-first").get_by_role("button", name="Start again").tap()
    page.locator("[data-facet=natural_level] [value='7'] + label").tap()
    page.locator("[data-facet=texture] [value=medium] + label").tap()
    assert page.locator("#bb-stops").is_visible() and page.locator(FIGURES).count() == 0


@pytest.mark.long
def test_what_would_overturn_the_answer_is_asked_next(watched: Watched, address: str) -> None:
    page, first = cleared(watched, address + "pick/?natural_level=7&texture=medium")
    first.locator("summary", has_text="To be sure: previously coloured").click()
    first.get_by_text("was it ever coloured?").wait_for()  # a fold is filled once it has opened
    assert "henna" not in first.inner_text().lower()
    first.get_by_role("button", name="previously coloured").click()
    assert first.inner_text().startswith("Test first.") and not page.locator("#bb-stops").is_visible()


def test_nothing_of_the_person_is_kept_or_printed(watched: Watched, address: str) -> None:
    page = watched.opened(address + ORDINARY)
    page.locator("#bb-stops").wait_for()  # by then the page has written the head into its address
    before = page.evaluate(KEPT_SOMEWHERE)
    for tapped in ("pregnant or nursing", "medicine or illness"):
        tap_stop(page, tapped)
    page.locator("#bb-none").click()
    page.locator("#bb-answer .bb-before").wait_for()
    after = page.evaluate(KEPT_SOMEWHERE)
    assert after == before
    printed = pypdfium2.PdfDocument(page.pdf(format="A4"))
    text = " ".join(sheet.get_textpage().get_text_bounded() for sheet in printed).lower()
    assert "not printed" in text
    assert [
        word for word in ("pregnant", "medicine", "midwife", "doctor", "pharmacist") if word in text
    ] == []


@pytest.mark.long
def test_the_list_is_read_and_answered_from_the_keyboard(
    watched: Watched, address: str, demo_book: Book
) -> None:
    page = watched.opened(address + "pick/?natural_level=7&texture=medium")
    page.locator("#bb-stops input").first.focus()
    for _ in house_list(demo_book):
        page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") == "bb-none"
    page.keyboard.press("Enter")
    assert page.locator("#bb-first").inner_text().startswith("Go.")
    assert page.evaluate("document.activeElement.id") == "bb-first"  # the next Tab goes into the answer
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('#bb-first') !== null")


@pytest.mark.long
def test_at_twice_the_text_the_list_is_not_cut_off(open_page: Open, address: str) -> None:
    """WCAG 2.2, SC 1.4.4 and 1.4.10, on a phone 320 px wide."""
    page = open_page({"width": 320, "height": 640}, address + "pick/?natural_level=7&texture=medium")
    page.evaluate("document.documentElement.style.fontSize = '250%'")
    page.locator("#bb-stops").wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    cut = """[...document.querySelectorAll('#bb-stops label, #bb-none')]
      .filter((each) => each.scrollWidth > each.clientWidth).length"""
    assert page.evaluate(cut) == 0
    page.locator("#bb-none").click()
    assert page.locator("#bb-first").inner_text().startswith("Go.")
    assert page.evaluate("document.documentElement.scrollWidth") <= 320


def test_every_usual_stop_of_one_facet_is_in_the_list(demo_book: Book) -> None:
    """Weeks aside, which nobody knows at first: unknown weeks hold every stop of recent services."""
    listed = {(facet, value) for facet, value, _ in STOP_LIST}
    found = 0
    for stop in practice_of(demo_book).stops:
        if not stop.standing.startswith("usual"):
            continue
        facets = {
            PLACES[place]: bits for place, bits in enumerate(stop.when) if bits and PLACES[place] != "weeks"
        }
        if stop.effect == STOP and len(facets) == 1 and not facets.keys() & {"volume"}:
            ((facet, bits),) = facets.items()
            values = {value for at, value in enumerate(DOMAINS[facet]) if bits >> at & 1}
            assert {(facet, value) for value in values} <= listed, stop.do
            found += 1
    assert found >= 10
