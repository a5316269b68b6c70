"""A house's own colours: the nearest shades that can be read, their style sheet, and what to warn of."""

import colorsys
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from bowlbook.pages.contrast import SCHEMES, Unreadable, channels, colours_of, contrast, mixed, unreadable

WORDS = {
    "ink": "text",
    "ink-soft": "second text",
    "ground": "the page",
    "tint": "quiet fields",
    "act": "links and what is chosen",
    "act-ink": "words on what is chosen",
    "act-tint": "what a pointer is on",
    "focus": "the ring round what the keyboard is on",
    "edge": "borders of controls",
}
TINT = 0.1
"""How much of the colour is in the field that shows what a pointer is on."""
STEPS = 100
"""Shades that are tried between a colour and black or white."""
HAIR = (12, 55)
"""Hues of hair and exposed pigment, in degrees: drawn by eye, as those colours are."""
STOP = (345, 372)
"""Hues that the look keeps for what stops."""


class Given(NamedTuple):
    """A colour as ``#rgb`` or ``#rrggbb``, and as the house wrote it."""

    value: str
    written: str

    def __str__(self) -> str:
        return self.value if self.written == self.value else f"{self.written} ({self.value})"


class HouseColours(NamedTuple):
    """A style sheet that sets a house's colours, empty where it has none; and what to warn of."""

    style: str
    warnings: list[str]


def house_colours(given: Mapping[str, Mapping[str, Given]]) -> HouseColours:
    """What is shown for a house's colours.

    ``given``: for light and dark, ``primary`` (links, what is chosen) and ``accent`` (the ring round what the
    keyboard is on). Where one cannot be read in the scheme that it was given for, the nearest shade that can
    be is shown, and a warning names the pair, its ratio and what it needs. A colour that is given for one
    scheme alone is shown in the other as its nearest shade that can be read there, without a warning.
    """
    blocks = {}
    warnings: list[str] = []
    for scheme, other_scheme in (SCHEMES, SCHEMES[::-1]):
        own, other = given.get(scheme) or {}, given.get(other_scheme) or {}
        found: dict[str, str] = {}
        for role in ("primary", "accent"):
            if colour := own.get(role) or other.get(role):
                shade = _nearest(colour.value, role, scheme)
                found |= _shown(shade, role, scheme)
                if role in own:
                    warnings.extend(_warnings_of(colour, role, scheme, shade))
        if found:
            blocks[scheme] = ";".join(f"--{name}:{value}" for name, value in found.items())
    return HouseColours(_written(blocks), warnings)


def _shown(colour: str, role: str, scheme: str) -> dict[str, str]:
    """What is shown of a colour: of the first also words on it, and a field with a little of it."""
    if role == "accent":
        return {"focus": colour}
    own = colours_of(scheme)
    ink = max((own["ground"], own["ink"], "#fff", "#000"), key=lambda each: contrast(each, colour))
    return {"act": colour, "act-ink": ink, "act-tint": mixed(own["ground"], colour, TINT)}


def _faults(colour: str, role: str, scheme: str) -> list[Unreadable]:
    found = _shown(colour, role, scheme)
    return unreadable({**colours_of(scheme), **found}, frozenset(found))


def _nearest(colour: str, role: str, scheme: str) -> str:
    """The first shade towards black (in dark, white) that can be read."""
    end = "#000" if scheme == "light" else "#fff"
    shades = (mixed(colour, end, step / STEPS) for step in range(STEPS + 1))
    return next(each for each in shades if not _faults(each, role, scheme))


def _warnings_of(colour: Given, role: str, scheme: str, shade: str) -> Iterator[str]:
    """What to warn of where a colour was given for this scheme, and ``shade`` is shown."""
    if role == "primary":
        yield from _near_a_meaning(colour, scheme)
    if faults := _faults(colour.value, role, scheme):
        worst = min(faults, key=lambda each: each.ratio / each.pair.least)
        yield (
            f"theme, palette, {role}: {colour} cannot be read in {scheme}: {pair_words(worst)} "
            f"{shade} is shown instead, its nearest shade that can be; or choose another."
        )


def pair_words(found: Unreadable) -> str:
    """A pair, its ratio and what it needs, in a sentence. The ratio is cut, so that it never seems enough."""
    pair, ratio = found
    clause = "1.4.3" if pair.least > 3 else "1.4.11"
    on = f"{_name(pair.front)} on {_name(pair.back)}"
    return f"{on} is {int(ratio * 10) / 10}, and needs {pair.least:g} (WCAG 2.2, {clause})."


def _name(colour: str) -> str:
    return f"{WORDS[colour]} ({colour})" if colour in WORDS else colour


def _near_a_meaning(colour: Given, scheme: str) -> Iterator[str]:
    """A warning where links would look like hair, or like what stops."""
    hue, lightness, strength = colorsys.rgb_to_hls(*(each / 255 for each in channels(colour.value)))
    degrees = hue * 360
    if strength < 0.25 or not 0.1 < lightness < 0.9:
        return
    start = f"theme, palette, primary: {colour} in {scheme} is close to "
    if HAIR[0] <= degrees <= HAIR[1]:
        yield start + "the colours of hair and of exposed pigment. Links would look like a level."
    elif STOP[0] <= degrees or degrees + 360 <= STOP[1]:
        yield start + "the red that says stop. Links would look like a stop."


def _written(blocks: Mapping[str, str]) -> str:
    """The style sheet. Not for paper, which has black alone."""
    light, dark = blocks.get("light"), blocks.get("dark")
    rules = [f":root{{{light}}}"] if light else []
    if dark:
        rules.append(f'@media (prefers-color-scheme:dark){{:root:not([data-scheme="light"]){{{dark}}}}}')
        rules.append(f':root[data-scheme="dark"]{{{dark}}}')
    return f"@media screen{{{''.join(rules)}}}\n" if rules else ""
