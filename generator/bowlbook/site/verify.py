"""A built site looked over before it is published: links, anchors, assets, search entries, empty pages."""

import json
import posixpath
import re
import sys
from collections.abc import Collection, Iterable, Iterator, Mapping
from functools import lru_cache, partial
from html import unescape
from pathlib import Path
from typing import NamedTuple
from urllib.parse import unquote, urlsplit

from bowlbook.cache.processes import all_made
from bowlbook.reading.source import open_quote_of
from bowlbook.site.record import Target

NOT_FETCHED = ("canonical", "prev", "next", "alternate")
"""Kinds of ``<link>`` that a browser does not fetch."""
LOST = "404.html"
"""The page for lost addresses: a server shows it anywhere, so that its links lead from everywhere."""


NAMES = ("id", "name", "href", "src")
BEFORE = "|".join(rf"(?<=\s{end}=)" for end in (*NAMES, ""))
LAST = "".join(name[-1] for name in NAMES)
GIVEN = re.compile(rf"""=(?<=[{LAST}\s]=)(?:{BEFORE})\s*(?:"([^"]*)"|'([^']*)'|([^\s"'>]+))""", re.I)
"""What is given to one of the names, or to any name with a space after it. Found by its ``=``, which is much
rarer than a space, and by one look at the sign before that."""
NO_ATTRIBUTE = "", ""
REL = re.compile(r"""\srel\s*=\s*["']?([^"'>]*)""", re.I)
COMMENT = re.compile(r"<!--.*?-->", re.S)
ARTICLE = re.compile(r"<article\b[^>]*(?=>)")
TEXT = re.compile(r">\s*[^\s<]")


class _Look(NamedTuple):
    """A page: whether it has a text, what it fetches from other hosts, where its links lead, its anchors."""

    has_text: bool
    foreign: list[str]
    leads: dict[str, Target]
    anchors: set[str]


def _look(site: Path, page: str) -> _Look:
    """What is seen of a page: links, anchors, and whether there is a text in the main column.

    For well-formed pages: an attribute is what stands between ``<`` and ``>`` and in no other attribute's
    quotation marks. Quicker than a parser, which a thousand pages would be waited for.
    """
    with open(f"{site}/{page}", "rb") as file:  # noqa: PTH123  # a Path for each of thousands takes longer
        html = file.read().decode("utf-8", "replace")
    if "<!--" in html:
        html = COMMENT.sub("", html)
    links: list[str] = []
    fetched: list[str] = []
    anchors: set[str] = set()
    for given in GIVEN.finditer(html):
        at = given.start()
        start = html.rfind("<", 0, at)
        name, value = _attribute(html[start:at], given[given.lastindex or 0]) if start >= 0 else NO_ATTRIBUTE
        if name in ("id", "name"):
            anchors.add(value)
        elif name:
            links.append(value)
            is_link = html[start + 1 : start + 6].lower() == "link "
            if name == "src" or (is_link and _rel(html, start) not in NOT_FETCHED):
                fetched.append(value)
    has_text = any(_has_text(html, found.end()) for found in ARTICLE.finditer(html))
    foreign = [link for link in dict.fromkeys(fetched) if urlsplit(link).netloc]
    return _Look(has_text, foreign, _leads(page, links), anchors)


@lru_cache(1 << 15)
def _attribute(before: str, given: str) -> tuple[str, str]:
    """The name and the value of an attribute whose tag begins with ``before``; nothing where it is none."""
    if ">" in before or not _is_outside_quotes(before):
        return NO_ATTRIBUTE
    name, value = before.rsplit(None, 1)[-1].lower(), unescape(given)
    return (name, value) if value and name in NAMES else NO_ATTRIBUTE


def _has_text(html: str, start: int) -> bool:
    """Whether there is a text between the tag that ends at ``start`` and the end of the article."""
    end = html.find("</article>", start)
    return end >= 0 and TEXT.search(html, start, end) is not None


def _is_outside_quotes(tag: str) -> bool:
    """Whether no quotation is open at the end of the beginning of a tag."""
    return not open_quote_of(tag) if "'" in tag else tag.count('"') % 2 == 0


def _rel(html: str, start: int) -> str:
    found = REL.search(html, start, html.find(">", start))
    return found[1] if found else ""


class Inspection(NamedTuple):
    """What is wrong with a site, one sentence each, and everything in it that its links lead to."""

    faults: list[str]
    targets: frozenset[Target]


def look_over(
    site: Path,
    names: Iterable[str],
    kept: Collection[str] = (),
    known: frozenset[Target] = frozenset(),
    beneath: str = "",
) -> Inspection:
    """Look over a built site, all of whose files are ``names``; without faults it may be published.

    What several pages have from one cause, such as a page that is missing, is one sentence with their number.
    Looks at every page: links and assets that lead nowhere, anchors that do not exist, requests to another
    host, pages without text, search entries without a page. ``kept``: pages of an earlier site that was
    published, and ``known``: the targets of that site. Where all of these still exist, kept pages need no
    second look. ``beneath``: the folder of the site that the book is beneath, all of which is looked at; the
    rest is not the book's.
    """
    there = set(names)
    pages = sorted(name for name in there if name.endswith(".html") and name.startswith(beneath))
    fresh = [name for name in pages if name not in kept] if kept else pages
    looked = _looked(site, fresh)
    if kept and _missing(known, there, looked.anchors):
        known, fresh = frozenset(), pages
        looked = _looked(site, fresh)
    # Of a kept page only the anchors that a fresh page leads to are not known yet.
    others = {path for path, anchor in looked.targets - known if anchor} - looked.anchors.keys()
    anchors = looked.anchors | _looked(site, sorted(others.intersection(pages))).anchors
    missing = _missing(looked.targets - known, there, anchors)
    faults = looked.faults + (_links_to(missing, site, fresh, there) if missing else [])
    first = [] if f"{beneath}index.html" in there else ["There is no front page."]
    every = first + _by_cause(faults) + _bad_search(site, set(pages), beneath)
    return Inspection(every, known | looked.targets)


class _Looked(NamedTuple):
    """What was seen of some pages: faults of their own, what they lead to, and the anchors of each."""

    faults: list["_Fault"]
    targets: frozenset[Target]
    anchors: dict[str, frozenset[str]]


def _looked(site: Path, names: list[str]) -> _Looked:
    faults: list[_Fault] = []
    targets: set[Target] = set()
    anchors: dict[str, frozenset[str]] = {}
    for name, look in _looks(site, names):
        anchors[name] = frozenset(map(sys.intern, look.anchors))
        if name == LOST:
            continue
        targets.update(look.leads.values())
        if not look.has_text:
            faults.append(_Fault(name, 0, "the page has no text", "Pages have no text"))
        for link in look.foreign:
            text = f"{link} is fetched from another host"
            faults.append(_Fault(name, 1, text, text))
    return _Looked(faults, frozenset(targets), anchors)


def _missing(
    targets: Iterable[Target], there: set[str], anchors: Mapping[str, frozenset[str]]
) -> set[Target]:
    """The targets that do not exist. An anchor is looked for in the pages of ``anchors`` alone."""
    return {
        (path, anchor)
        for path, anchor in targets
        if path not in there or (anchor and path in anchors and anchor not in anchors[path])
    }


def _links_to(missing: set[Target], site: Path, names: list[str], there: set[str]) -> list["_Fault"]:
    """Each link of these pages to a target that does not exist."""
    faults = []
    for name, look in _looks(site, [each for each in names if each != LOST]):
        for place, (link, (path, anchor)) in enumerate(look.leads.items(), 2):
            if (path, anchor) in missing:
                to, where = (f"{path}#{anchor}", "to no anchor") if path in there else (path, "nowhere")
                cause = f"Links to {to} lead {where}"
                faults.append(_Fault(name, place, f"the link {link} leads {where}", cause))
    return faults


class _Fault(NamedTuple):
    """A fault of one page: where in it, what it is there, and what it is on any page that has it."""

    page: str
    place: int
    text: str
    cause: str


def _by_cause(faults: list[_Fault]) -> list[str]:
    """A sentence for each cause that several pages have, most pages first, then one for each other fault."""
    pages: dict[str, set[str]] = {}
    for fault in faults:
        pages.setdefault(fault.cause, set()).add(fault.page)
    shared = sorted((-len(names), cause) for cause, names in pages.items() if len(names) > 1)
    several = [
        f"{cause}: {-count} pages, such as {', '.join(sorted(pages[cause])[:3])}." for count, cause in shared
    ]
    alone = sorted(fault for fault in faults if len(pages[fault.cause]) == 1)
    return several + [f"{fault.page}: {fault.text}." for fault in alone]


def _looks(site: Path, names: list[str]) -> Iterator[tuple[str, _Look]]:
    """What is seen of each page, worked out by several processes."""
    for place, look in all_made([partial(_look, site, name) for name in names]):
        yield names[place], look


ELSEWHERE = re.compile(r"[a-z][a-z0-9+.-]*:|//", re.I)
"""How an address begins that leads out of the site."""
PARENT = re.compile(r"\.\./(?!/)")
"""A step to the folder above; with another slash behind it, it is left to `posixpath`."""


def _leads(name: str, links: list[str]) -> dict[str, Target]:
    """Which file and anchor each of a page's links leads to, as far as they lead to the site."""
    above = [name]
    while above[-1]:
        above.append(above[-1].rpartition("/")[0])
    leads = {}
    for link in dict.fromkeys(links):
        if (parts := _parts(link)) is not None:
            steps, path, anchor = parts
            leads[link] = (_file_below(above[: steps + 1][-1], path) if steps else name, anchor)
    return leads


@lru_cache(1 << 15)
def _parts(link: str) -> tuple[int, str, str] | None:
    """How many steps up a link leads, the path from there, and the anchor; None for one out of the site.

    The first step is from the page to its folder; a link without a path takes none.
    """
    if ELSEWHERE.match(link):
        return None
    path, _, anchor = link.partition("#")
    path = path.partition("?")[0]
    steps = 1 if path else 0
    while PARENT.match(path):
        steps, path = steps + 1, path[3:]
    return steps, path, unquote(anchor)


@lru_cache(1 << 16)
def _file_below(folder: str, path: str) -> str:
    there = posixpath.normpath(posixpath.join("/", folder, unquote(path))).lstrip("/")
    if path in ("", ".", "..") or path.endswith(("/", "/.", "/..")):
        return f"{there}/index.html".lstrip("/")
    return there


def _bad_search(site: Path, pages: set[str], beneath: str) -> list[str]:
    index = names = site / beneath / "data/names.json"
    if names.is_file():
        index = names.parent / str(json.loads(names.read_text(encoding="utf-8")).get("search"))
    if not index.is_file():
        return ["There is no search index."]
    entries = json.loads(index.read_text(encoding="utf-8"))["entries"]
    return [
        f"search: {address} leads nowhere."
        for address, *_ in entries
        if _file_below(beneath, address.partition("#")[0]) not in pages
    ]
