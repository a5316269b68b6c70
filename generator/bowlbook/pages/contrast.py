"""Contrast of the look's colours: the ratio of two, and which pairs of them are read one on the other."""

import colorsys
import re
from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from bowlbook.pages.asset import STYLE, assets

SCHEMES = ("light", "dark")
VALUE = re.compile(r"--([a-z-]+(?:\d+)?): *(#[0-9a-f]{3,8})\b")


class Pair(NamedTuple):
    """A colour that is read on another, by their names in ``values.css``, and the least ratio of the two.

    ``least``: 4.5 for text (WCAG 2.2, SC 1.4.3), 3 for edges of controls, what marks them, and the ring round
    what the keyboard is on (SC 1.4.11).
    """

    front: str
    back: str
    least: float


def _pairs(least: float, text: str) -> list[Pair]:
    """Pairs of one least ratio, from ``front on back, front on back``."""
    pairs = (each.partition(" on ") for each in text.split(", "))
    return [Pair(front, back, least) for front, _, back in pairs]


PAIRS = (
    *_pairs(
        4.5,
        "ink on ground, ink on tint, ink on act-tint, ink-soft on ground, ink-soft on tint, "
        "act on ground, act on tint, act on act-tint, act-ink on act, reading-ink on reading, "
        "ink-soft on reading, care-ink on care, stop-ink on stop, stop-text on ground",
    ),
    *_pairs(
        3.0,
        "focus on ground, focus on tint, edge on ground, reading-edge on ground, care-edge on care, "
        "care-edge on ground, drawn-mix-line on drawn-mix, drawn-mix-line on drawn-hair, "
        "drawn-fall on drawn-hair, ink on drawn-hair, ink on drawn-skin, ink on drawn-foil",
    ),
)


class Unreadable(NamedTuple):
    """A pair that has less contrast than it needs, and its ratio."""

    pair: Pair
    ratio: float


def luminance(colour: str) -> float:
    """The relative luminance of ``#rgb`` or ``#rrggbb``, 0 to 1, as WCAG 2.2 defines it.

    Source: https://www.w3.org/TR/WCAG22/#dfn-relative-luminance
    """
    red, green, blue = (
        each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4
        for each in (each / 255 for each in channels(colour))
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours, 1 to 21, as WCAG 2.2 defines it.

    Source: https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio
    """
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def channels(colour: str) -> tuple[int, int, int]:
    """Red, green and blue of ``#rgb`` or ``#rrggbb``, 0 to 255. Raises `ValueError` for anything else."""
    digits = colour.removeprefix("#")
    if len(digits) == 3:
        digits = "".join(each * 2 for each in digits)
    if len(digits) != 6 or not colour.startswith("#"):
        raise ValueError(f"not a colour of three or six hexadecimal digits: {colour}")
    red, green, blue = bytes.fromhex(digits)
    return red, green, blue


def hex_of(written: str) -> str | None:
    """A colour of a style sheet as ``#rgb`` or ``#rrggbb``; None for one that is written in another way.

    Understood: ``#…``, ``rgb(…)`` and ``hsl(…)`` of whole numbers, without transparency.
    """
    if re.fullmatch(r"#(?:[0-9a-f]{3}|[0-9a-f]{6})", written):
        return written
    found = re.fullmatch(r"(rgb|hsl)\((\d+)(?:deg)?[ ,]+(\d+)%?[ ,]+(\d+)%?\)", written)
    if found is None:
        return None
    one, two, three = map(int, found.groups()[1:])
    parts: tuple[float, ...] = (one / 255, two / 255, three / 255)
    if found[1] == "hsl":
        parts = colorsys.hls_to_rgb(one / 360, three / 100, two / 100)
    return "#" + "".join(f"{min(round(each * 255), 255):02x}" for each in parts)


def mixed(one: str, other: str, share: float) -> str:
    """A colour with a share of another, 0 to 1, channel by channel; rounded to whole steps of 255."""
    parts = zip(channels(one), channels(other), strict=True)
    return "#" + "".join(f"{round(mine + (its - mine) * share):02x}" for mine, its in parts)


@cache
def colours_of(scheme: str) -> Mapping[str, str]:
    """The look's own colours in a scheme, by name, as ``#rgb`` or ``#rrggbb``."""
    text = assets()[STYLE].decode()  # it begins with the values
    light, _, rest = text.partition("@media (prefers-color-scheme: dark)")
    found = dict(VALUE.findall(light))
    if scheme == "dark":
        found |= dict(VALUE.findall(rest.partition("}")[0]))
    return {**found, "focus": found["act"]}


def unreadable(values: Mapping[str, str], names: frozenset[str] | None = None) -> list[Unreadable]:
    """The pairs without the contrast that they need; with ``names`` only those with one of these colours."""
    pairs = [each for each in PAIRS if names is None or not names.isdisjoint((each.front, each.back))]
    ratios = [Unreadable(each, contrast(values[each.front], values[each.back])) for each in pairs]
    return [each for each in ratios if each.ratio < each.pair.least]
