"""Any amount on the phone: the very strings that Python gives, for mixes and for bowls put right."""

import json
import os
import random
from dataclasses import replace
from fractions import Fraction

import pytest
from playwright.sync_api import BrowserContext
from tests.browser.conftest import PHONE, Watched
from tests.browser.shared_pages import Open

from bowlbook.book.current import current
from bowlbook.figures.bowl import CannotWeigh, developers_of, mix, over_bowl
from bowlbook.figures.correction import TooLittleShown, correct, weight_shown
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.pages.bowl_panel import panel_of
from bowlbook.pages.mix_data import mix_data
from bowlbook.reading.amount import plain
from bowlbook.wording.locale_format import LocaleFormat

CASES = 5_000 if os.environ.get("BOWLBOOK_LONG") else 250
"""As many as the everyday run has time for; `.ci/run` asks for all."""

STEPS = {"oz": ["0.05", "0.01", "0.1", "0.005"], "g": ["1", "0.1", "0.5", "5", "0.01"]}

ASK = """async ([folder, recipes, cases]) => {
  const { mix, recipe } = await import(folder + 'mix.js');
  const { correct } = await import(folder + 'correct.js');
  const known = new Map(Object.entries(JSON.parse(recipes)).map(([id, data]) => [id, recipe(data)]));
  return JSON.stringify(JSON.parse(cases).map(([id, unit, batch, step, developer, poured, after]) => {
    const blend = known.get(id);
    const bowl = mix(blend, unit, batch, step, developer);
    return [bowl, bowl.zero ? null : correct(blend, unit, batch, step, poured, after)];
  }));
}"""


def python(book, formats, case, draw):
    """The bowl and a bowl put right, by the book's own figures, in the words of the page."""
    blend_id, unit, batch, step, developer_id = case
    blend = book.blends[blend_id]
    developer = next(each for each in developers_of(book, blend) if each.id == developer_id)
    scale = Fraction(step)
    try:
        bowl = mix(book, blend, unit, Fraction(batch), scale, developer)
    except CannotWeigh as zero:
        nearest = zero.next_weighable_batch
        following = None if nearest is None else f"{fixed(nearest, decimals_of(scale))} {unit}"
        return {"zero": zero.product.name, "following": following}, {}, None, None
    panel = panel_of(bowl, formats)
    shown = {
        "pours": [
            {
                "id": line.id,
                "name": line.name,
                "role": line.role,
                "exact": line.exact,
                "off": line.error,
                "weigh": line.weigh,
                "shows": line.scale_shows,
                "volume": line.volume,
                "cost": line.cost,
            }
            for line in panel.lines
        ],
        "total": panel.total,
        "peroxide": panel.peroxide,
        "error": panel.worst_error,
        "within": panel.within_tolerance,
        "following": panel.next_weighable,
        "overDose": list(panel.over_dose),
        "overBowl": bowl.over_bowl,
        "cost": panel.cost,
    }
    poured, after = over_poured(bowl, draw)
    weights = dict(poured)
    if after:
        place, shows = after
        try:
            weights[place] = weight_shown(
                place, shows, [each.weigh for each in bowl.weighing.readings], poured
            )
        except TooLittleShown as error:
            before = fixed(error.before, max(decimals_of(scale), decimals_of(error.before)))
            return shown, texts(poured), {"place": place, "shows": plain(shows)}, {"before": before}
    found = correct(bowl.batch, bowl.weighing.parts, bowl.weighing.ratios, bowl.step, weights)
    places = max(decimals_of(each) for each in (scale, *(each.in_bowl for each in found.pours)))
    corrected = {
        "batch": f"{fixed(found.batch, decimals_of(scale))} {unit}",
        "overBowl": over_bowl(book.house, unit, found.batch),
        "pours": [
            {
                "in": fixed(each.in_bowl, places),
                "must": fixed(each.must_be, places),
                "add": fixed(each.add, places),
                "shows": fixed(each.scale_shows, places),
                "more": each.add > 0,
            }
            for each in found.pours
        ],
    }
    return shown, texts(poured), after and {"place": after[0], "shows": plain(after[1])}, corrected


def texts(poured):
    return {place: plain(weight) for place, weight in poured.items()}


def over_poured(bowl, draw):
    """Weights by place, and perhaps what the scale shows after a later one: also too little or between."""
    places = draw.sample(range(len(bowl.pours)), draw.randint(1, len(bowl.pours)))
    after = max(places) if draw.random() < 0.5 else None
    poured = {}
    for place in places:
        off = draw.choice([0, 0, -1, 1, 2, 7, Fraction(1, 2)]) * bowl.step
        if place != after:
            poured[place] = max(Fraction(0), bowl.pours[place].reading.weigh + off)
    if after is None:
        return poured, None
    return poured, (
        after,
        bowl.pours[after].scale_shows + draw.choice([-1, 1, 3, Fraction(1, 4)]) * bowl.step,
    )


@pytest.mark.more
def test_phone_and_python_agree(watched: Watched, address: str, demo_book, asset_address) -> None:
    draw = random.Random(20261125)
    formats = LocaleFormat(demo_book.house)
    unpriced = {"developer-20": replace(demo_book.products["developer-20"], pack=None)}
    unpriced["developer-20"].placed("developer-20", demo_book.products["developer-20"].source)
    demo_book = replace(demo_book, products={**demo_book.products, **unpriced})  # one price is missing
    recipes = {each.id: mix_data(demo_book, each, formats) for each in current(demo_book.blends).values()}
    cases, expected = [], []
    for _ in range(CASES):
        blend = draw.choice(list(current(demo_book.blends).values()))
        unit = draw.choice(["oz", "g"])
        step = draw.choice(STEPS[unit])
        if draw.random() < 0.6:
            batch = plain(Fraction(step) * draw.randint(1, 120))
        else:
            batch = plain(Fraction(draw.randint(1, 9_000), draw.choice([10, 100, 1000])))
        developer = draw.choice(developers_of(demo_book, blend)).id
        case = (blend.id, unit, batch, step, developer)
        shown, poured, after, corrected = python(demo_book, formats, case, draw)
        cases.append([*case, poured, after])
        expected.append([shown, corrected])
    watched.page.goto(address)
    wrong = 0
    for start in range(0, CASES, 250):
        part = json.dumps(cases[start : start + 250])
        answers = json.loads(watched.page.evaluate(ASK, [asset_address, json.dumps(recipes), part]))
        for case, phone, own in zip(cases[start:], answers, expected[start:], strict=False):
            assert phone == json.loads(json.dumps(own)), case
            wrong += "zero" in own[0]
    assert CASES / 200 < wrong < CASES / 2  # both kinds of answer were asked for
    assert watched.faults == []


@pytest.mark.long
def test_money_is_written_as_the_house_writes_it(watched: Watched, address: str, asset_address) -> None:
    """Locales of many kinds against Babel's own writing (Unicode CLDR)."""
    from dataclasses import dataclass

    @dataclass
    class House:
        locale: str
        currency: str

    ask = """async ([folder, asked]) => {
      const { money } = await import(folder + 'mix.js');
      return asked.map(([minor, form]) => money(BigInt(minor), form));
    }"""
    draw = random.Random(7)
    asked, own = [], []
    for locale in ("en-CA", "fr-CA", "de-DE", "de-CH", "hi-IN", "ja-JP", "ar-KW", "es-ES", "sv-SE", "pt-BR"):
        for currency in ("CAD", "JPY", "KWD", "EUR", "INR"):
            formats = LocaleFormat(House(locale, currency))
            for minor in [0, 5, 99, 100, 1000, 123456, 12345678, *(draw.randrange(10**9) for _ in range(4))]:
                asked.append([minor, formats.money_form()])
                own.append(formats.money(minor))
    watched.page.goto(address)
    assert watched.page.evaluate(ask, [asset_address, asked]) == own


def test_unit_and_step_are_remembered_on_the_phone(watched: Watched, address: str) -> None:
    page = watched.opened(address + "blends/cool-foil-coarse/")
    page.locator("#bb-any > summary").click()
    page.locator("label[for=bench-g]").click()
    page.locator("#bench-step").fill("0.5")
    page.goto(address + "blends/hairline-gentle/")
    assert page.locator("#bench-g").is_checked()
    assert page.locator("#bench-step").input_value() == "0.5"
    assert page.locator(".bb-size:checked").get_attribute("id").startswith("size-g-")


def test_without_scripts_the_table_stands(open_page: Open, address: str) -> None:
    page = open_page(PHONE, address + "blends/cool-foil-coarse/", scripts=False)
    assert page.locator(".bb-panel:visible .bb-shows").all_inner_texts() == ["0.33", "0.50", "1.50"]
    assert not page.locator("#bb-bench").is_visible()
    page.locator(".bb-size-label[for=size-oz-1-00]").click()
    assert page.locator(".bb-panel:visible .bb-shows").all_inner_texts() == ["0.67", "1.00", "3.00"]
    page.get_by_role("button", name="Contents").click()
    assert page.get_by_role("link", name="Techniques", exact=True).is_visible()


@pytest.mark.long
def test_the_screen_stays_on_while_mixing(phone: BrowserContext, address: str) -> None:
    page = phone.new_page()
    page.add_init_script(
        "window.asked = []; Object.defineProperty(navigator, 'wakeLock', {value: {request: async (kind) => "
        "{ window.asked.push(kind); return new EventTarget(); }}})"
    )
    page.goto(address + "blends/cool-foil-coarse/")
    assert page.evaluate("asked") == []
    page.locator("#bb-any > summary").click()
    page.locator("#bench-batch").fill("0.7")
    page.wait_for_function("() => asked.length === 1")
    assert page.evaluate("asked") == ["screen"]
