"""A house's own colours, as the configuration says them: the theme's palette and the site's style sheets."""

import hashlib
import re
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from mkdocs.config.defaults import MkDocsConfig

from bowlbook.pages.contrast import SCHEMES, colours_of, hex_of, unreadable
from bowlbook.pages.house_colours import Given, HouseColours, house_colours, pair_words
from bowlbook.site.options import theme_folder

ROLES = ("primary", "accent")
SLATE = "slate"
"""What the theme calls its dark scheme."""
CUSTOM = "custom"
SETTING = re.compile(r"--([a-z-]+(?:\d+)?) *: *([^;]+)")
WHOLE_PAGE = re.compile(r"(?::root|html|body|\[data-)[^ >+~]*")
ANY = "any"
"""What is set whichever the scheme."""


def house_style(config: MkDocsConfig) -> HouseColours:
    """The house's colours of a configuration, as a style sheet and what to warn of.

    A colour is one that the theme names, or ``custom`` with a ``--md-primary-fg-color`` or
    ``--md-accent-fg-color`` in a style sheet of ``extra_css``. What such a sheet sets of the look's own
    colours is shown as it is; a pair that cannot be read is warned of.
    """
    warnings: list[str] = []
    sheets = {name: set_by(text) for name, text in _own_sheets(config)}
    palettes = _palettes(config)
    first = next(iter(palettes), SCHEMES[0])
    given: dict[str, dict[str, Given]] = {scheme: {} for scheme in SCHEMES}
    for scheme in SCHEMES:
        # What is set whichever the scheme is for the first; the other's is made of it.
        settings: dict[str, str] = {}
        for each in (ANY, scheme) if scheme == first else (scheme,):
            for sets in sheets.values():
                settings |= sets[each]
        for role in ROLES:
            name = palettes.get(scheme, {}).get(role)
            custom = name is None or str(name).lower() == CUSTOM
            colour = _custom(settings, role, warnings) if custom else _named(name, role, scheme, warnings)
            if colour:
                given[scheme][role] = Given(colour, colour if custom else str(name))
    found = house_colours(given)
    seen = [each for name, sets in sheets.items() for each in _faults_of(name, sets)]
    return HouseColours(found.style, list(dict.fromkeys([*warnings, *found.warnings, *seen])))


def style_name(style: str) -> str:
    """Where the house's colours are published: named after their content, as all assets are."""
    return f"assets/house-{hashlib.sha256(style.encode()).hexdigest()[:10]}.css"


def _palettes(config: MkDocsConfig) -> dict[str, Mapping[str, Any]]:
    """The palette of each scheme that has one with colours, the first of each."""
    given = config.theme.get("palette") or {}
    found: dict[str, Mapping[str, Any]] = {}
    for each in given if isinstance(given, list) else [given]:
        if isinstance(each, Mapping) and any(each.get(role) for role in ROLES):
            dark = each.get("scheme") == SLATE or "dark" in str(each.get("media", ""))
            found.setdefault("dark" if dark else "light", each)
    return found


def _custom(settings: Mapping[str, str], role: str, warnings: list[str]) -> str | None:
    """The colour that the site's own style sheets set for the theme."""
    setting = f"md-{role}-fg-color"
    written = settings.get(setting)
    found = hex_of(written) if written else None
    if written and not found:
        warnings.append(f"extra_css: --{setting} is {written} and is not shown: write it as #rrggbb.")
    return found


def _named(given: object, role: str, scheme: str, warnings: list[str]) -> str | None:
    """The colour of this name in the theme; None, with a warning, where it has none."""
    name, names = str(given), _theme_colours(role)
    colours = names.get(name.lower().replace("-", " "))
    if colours is None:
        import difflib  # slow to load, and seldom needed

        near = difflib.get_close_matches(name.lower(), names, 1)
        mend = f"Did you mean {near[0]}?" if near else f"It knows {', '.join(sorted(names))}."
        warnings.append(f"theme, palette, {role}: the theme knows no colour {name}. {mend}")
        return None
    return colours.get(scheme) or colours.get("light")


@cache
def _theme_colours(role: str) -> dict[str, dict[str, str]]:
    """The theme's named colours, by scheme, from its own style sheet: the one for links where it says one.

    For dark the theme says none for accents, and links for most of the others.
    """
    folder = theme_folder()
    paths = sorted(folder.glob("templates/assets/stylesheets/palette.*.css")) if folder else []
    selected = re.compile(rf"(\[data-md-color-scheme=slate\])?\[data-md-color-{role}=([a-z-]+)\]")
    found: dict[str, dict[str, str]] = {}
    for path in paths:
        for heads, body in _rules(path.read_text(encoding="utf-8")):
            settings = dict(SETTING.findall(body))
            settled = settings.get("md-typeset-a-color") or settings.get(f"md-{role}-fg-color") or ""
            for selector in heads[-1].split(","):
                if match := selected.fullmatch(selector):
                    known = found.setdefault(match[2].replace("-", " "), {})
                    if colour := hex_of(settled):
                        known["dark" if match[1] else "light"] = colour
    return found


def _own_sheets(config: MkDocsConfig) -> Iterable[tuple[str, str]]:
    """The style sheets of the site's own, by name, in the order in which they come."""
    for each in config.extra_css:
        path = Path(config.docs_dir, str(each))
        if path.is_file():
            yield str(each), path.read_text(encoding="utf-8", errors="replace")


def _faults_of(sheet: str, sets: Mapping[str, dict[str, str]]) -> Iterable[str]:
    """Warnings of a style sheet that sets colours of the look which cannot be read on each other."""
    for scheme in SCHEMES:
        # Ours for dark outweigh what is set whichever the scheme.
        written = {**(sets[ANY] if scheme == "light" else {}), **sets[scheme]}
        own: dict[str, str] = {}
        for name in sorted(written.keys() & colours_of(scheme).keys()):
            if colour := hex_of(written[name]):
                own[name] = colour
            else:
                yield f"{sheet}: --{name} is {written[name]} in {scheme}: not checked, as it is not #rrggbb."
        if "act" in own:
            own.setdefault("focus", own["act"])
        for found in unreadable({**colours_of(scheme), **own}, frozenset(own)):
            yield f"{sheet}: in {scheme} {pair_words(found)} It is shown as it is: choose another."


def set_by(style: str) -> dict[str, dict[str, str]]:
    """The variables that a style sheet sets for the whole page: in light, in dark, and whichever the scheme.

    Left out: what is for paper, and what no rule for the whole page sets (``:root``, ``html``, ``body`` or an
    attribute of the theme's).
    """
    found: dict[str, dict[str, str]] = {scheme: {} for scheme in (*SCHEMES, ANY)}
    for heads, body in _rules(re.sub(r"/\*.*?\*/", "", style, flags=re.DOTALL)):
        context = " ".join(heads)
        if "print" not in context and any(
            WHOLE_PAGE.fullmatch(each.strip()) for each in heads[-1].split(",")
        ):
            settings = {name: value.strip().lower() for name, value in SETTING.findall(body)}
            found[_scheme_of(context)] |= settings
    return found


def _scheme_of(context: str) -> str:
    """The scheme that a rule holds in, by its selector and what stands around it."""
    said = re.sub(r":not\([^)]*\)", "", context)
    if re.search(r"slate|dark", said):
        return "dark"
    return "light" if re.search(r"scheme[^a-z]*(default|light)", said) else ANY


def _rules(text: str) -> Iterable[tuple[list[str], str]]:
    """Each innermost block of a style sheet, with the heads of all blocks around it."""
    heads: list[str] = []
    for before, bracket in re.findall(r"([^{}]*)([{}])", text):
        if bracket == "{":
            heads.append(before.rpartition(";")[2].strip())
        elif heads:
            if before.strip():
                yield list(heads), before
            heads.pop()
