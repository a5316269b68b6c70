"""Keyboard: where the focus is can be seen on everything that takes it, also in forced colours; skipping."""

import pytest
from playwright.sync_api import Page
from tests.browser.conftest import PHONE
from tests.browser.shared_pages import Open
from tests.seeds import with_long

PATHS = [
    "",
    "pick/",
    "blends/soft-clay/",
    "techniques/painting/",
    "techniques/painting/service/",
    "situations/fine-hair/",
    "classes/first-painting/",
    "reports/costs/",
    "reference/write/",
    "try/",
]

READY = "!document.querySelector('#bb-pick[hidden], #try[hidden]')"
"""Pick by hair and Try a blend show their controls once they have their data; every other page is ready when
it is loaded."""

RING = """() => {
  const focused = document.activeElement;
  const hidden = focused.matches('.bb-size, .bb-facet input');
  const shown = hidden ? focused.nextElementSibling : focused;
  const style = getComputedStyle(shown);
  const name = `${shown.tagName}.${shown.className} ${shown.textContent.trim().slice(0, 30)}`;
  const ring = style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
  const out = parseFloat(style.outlineWidth) + parseFloat(style.outlineOffset);
  const box = shown.getBoundingClientRect();
  const cut = [];
  for (let up = shown.parentElement; up && up !== document.body; up = up.parentElement) {
    const over = getComputedStyle(up);
    if (over.overflowX === 'visible' && over.overflowY === 'visible') continue;
    const frame = up.getBoundingClientRect();
    const all = box.left - out >= frame.left - 1 && box.right + out <= frame.right + 1;
    if (!all) cut.push(up.className || up.tagName);
  }
  return [name, ring, cut.join(' '), focused === document.body];
}"""
"""The focused control, or the label drawn in its place: whether it has a ring, and what cuts that off."""


def rings(page: Page) -> dict[str, tuple[bool, str]]:
    """Every tab stop of a page, opened folds included, with its ring."""
    page.evaluate("document.querySelectorAll('details').forEach(each => each.open = true)")
    found: dict[str, tuple[bool, str]] = {}
    for _ in range(400):
        page.keyboard.press("Tab")
        name, ring, cut, ended = page.evaluate(RING)
        if ended:
            break
        found[name] = (ring, cut)
    return found


@pytest.mark.long
@pytest.mark.parametrize("forced", ["none", "active"])
def test_the_focus_is_seen_on_every_control(open_page: Open, small_address: str, forced: str) -> None:
    """WCAG 2.2, SC 2.4.7 and 2.4.13: a ring of at least 2 CSS px."""
    page = open_page(PHONE, forced_colors=forced)
    seen, missing = 0, []
    for path in PATHS:
        assert page.goto(small_address + path).ok, path
        page.wait_for_function(READY)
        for name, (ring, cut) in rings(page).items():
            seen += 1
            if not ring or cut:
                missing.append(f"{path}: {name} {'no ring' if not ring else f'cut off by {cut}'}")
    assert seen > 150
    assert not missing, "\n".join(missing)


@pytest.mark.parametrize(
    "path", with_long(["pick/"], ["", "blends/soft-clay/", "techniques/painting/service/"])
)
def test_skipping_leads_to_the_start_of_the_content(open_page: Open, small_address: str, path: str) -> None:
    page = open_page(PHONE, small_address + path)
    page.wait_for_function(READY)
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "bb-skip"
    page.keyboard.press("Enter")
    assert page.evaluate("document.querySelector(location.hash).tagName") == "H1"
    page.keyboard.press("Tab")
    first = "[...document.querySelectorAll('article :is(a, input, summary, button)')]"
    assert page.evaluate(f"document.activeElement === {first}.find(each => each.checkVisibility())")


@pytest.mark.long
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_what_is_chosen_is_seen_in_forced_colours(open_page: Open, small_address: str, scheme: str) -> None:
    page = open_page(PHONE, forced_colors="active", color_scheme=scheme)
    looks = "label => { const look = getComputedStyle(label); return look.backgroundColor + look.color; }"
    for path, chosen, other in (
        ("blends/soft-clay/", ".bb-size:checked + label", ".bb-size:not(:checked) + label"),
        ("blends/soft-clay/", "#bb-bench :checked + label", "#bb-bench input:not(:checked) + label"),
        ("cards/house-1/", "[name=size]:checked + label", "[name=size]:not(:checked) + label"),
        ("pick/?texture=fine", ".bb-facet :checked + label", ".bb-facet input:not(:checked) + label"),
        (
            "techniques/painting/service/",
            ".bb-facet :checked + label",
            ".bb-facet input:not(:checked) + label",
        ),
    ):
        page.goto(small_address + path)
        page.evaluate("document.querySelectorAll('details').forEach(each => { each.open = true; })")
        page.locator(chosen).first.wait_for()
        unlike = [page.locator(each).first.evaluate(looks) for each in (chosen, other)]
        assert unlike[0] != unlike[1], (path, chosen)
