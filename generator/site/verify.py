"""A built site looked over before it is published: links, anchors, assets, search entries, empty pages."""

import json
import posixpath
import re
from dataclasses import dataclass, field
from functools import partial
from html import unescape
from pathlib import Path
from urllib.parse import unquote, urlsplit

from generator.reading.source import open_quote_of
from generator.site.processes import all_made

NOT_FETCHED = ("canonical", "prev", "next", "alternate")
"""Kinds of ``<link>`` that a browser does not fetch."""


@dataclass(slots=True)
class _Seen:
    links: list[str] = field(default_factory=list)
    fetched: list[str] = field(default_factory=list)
    anchors: set[str] = field(default_factory=set)
    has_text: bool = False


GIVEN = re.compile(r"""\s(id|name|href|src)\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s"'>]+))""", re.I)
REL = re.compile(r"""\srel\s*=\s*["']?([^"'>]*)""", re.I)
COMMENT = re.compile(r"<!--.*?-->", re.S)
ARTICLE = re.compile(r"<article\b[^>]*>(.*?)</article>", re.S)
TEXT = re.compile(r">\s*[^\s<]")


def _seen(html: str) -> _Seen:
    """Links, anchors, and whether there is a text in the main column.

    For well-formed pages: an attribute is what stands between ``<`` and ``>`` and in no other attribute's
    quotation marks. Quicker than a parser, which a thousand pages would be waited for.
    """
    html = COMMENT.sub("", html)
    seen = _Seen(has_text=any(TEXT.search(f">{found}") for found in ARTICLE.findall(html)))
    for given in GIVEN.finditer(html):
        start = html.rfind("<", 0, given.start())
        if html.find(">", start, given.start()) >= 0 or not _outside_quotes(html, start, given.start()):
            continue
        key = given[1].lower()
        value = unescape(given[2] or given[3] or given[4] or "")
        if not value:
            continue
        if key in ("id", "name"):
            seen.anchors.add(value)
            continue
        seen.links.append(value)
        is_link = html[start + 1 : start + 6].lower() == "link "
        if key == "src" or (is_link and _rel(html, start) not in NOT_FETCHED):
            seen.fetched.append(value)
    return seen


def _outside_quotes(html: str, start: int, end: int) -> bool:
    """Whether no quotation is open at ``end`` in the tag that begins at ``start``."""
    if html.count("'", start, end) == 0:
        return html.count('"', start, end) % 2 == 0
    return not open_quote_of(html[start:end])


def _rel(html: str, start: int) -> str:
    found = REL.search(html, start, html.find(">", start))
    return found[1] if found else ""


def faults_of(site: Path) -> list[str]:
    """What is wrong with a built site, one sentence each; empty where it may be published.

    Looks at every page: links and assets that lead nowhere, anchors that do not exist, requests to another
    host, pages without text, search entries without a page.
    """
    files = {path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()}
    names = sorted(name for name in files if name.endswith(".html"))
    read = [partial(_read, site, name) for name in names]
    pages: dict[str, _Seen] = dict(zip(names, all_made(read), strict=True))
    faults = []
    if "index.html" not in pages:
        faults.append("There is no front page.")
    lead = _Leads(files)
    for name, seen in pages.items():
        if not seen.has_text and name != "404.html":
            faults.append(f"{name}: the page has no text.")
        if name != "404.html":
            faults += [f"{name}: {fault}" for fault in _bad_links(name, seen, pages, lead)]
    return faults + _bad_search(site, pages, lead)


def _read(site: Path, name: str) -> list[_Seen]:
    return [_seen((site / name).read_text(encoding="utf-8"))]


class _Leads:
    """Which file of a site an address leads to, each worked out once."""

    def __init__(self, files: set[str]) -> None:
        self.files = files
        self.known: dict[tuple[str, str], str | None] = {}

    def to(self, folder: str, path: str) -> str | None:
        """The file for a path as a page in ``folder`` gives it; None where there is none."""
        if (folder, path) not in self.known:
            there = posixpath.normpath(posixpath.join("/", folder, unquote(path))).lstrip("/")
            if path in ("", ".", "..") or path.endswith(("/", "/.", "/..")):
                there = f"{there}/index.html".lstrip("/")
            self.known[(folder, path)] = there if there in self.files else None
        return self.known[(folder, path)]


ELSEWHERE = re.compile(r"[a-z][a-z0-9+.-]*:|//", re.I)
"""How an address begins that leads out of the site."""


def _bad_links(name: str, seen: _Seen, pages: dict[str, _Seen], lead: _Leads) -> list[str]:
    faults = [
        f"{link} is fetched from another host."
        for link in dict.fromkeys(seen.fetched)
        if urlsplit(link).netloc
    ]
    folder = posixpath.dirname(name)
    for link in dict.fromkeys(seen.links):
        if ELSEWHERE.match(link):
            continue
        rest, _, anchor = link.partition("#")
        path = rest.partition("?")[0]
        found = lead.to(folder, path) if path else name
        if found is None:
            faults.append(f"the link {link} leads nowhere.")
        elif anchor and found in pages and unquote(anchor) not in pages[found].anchors:
            faults.append(f"the link {link} leads to no anchor.")
    return faults


def _bad_search(site: Path, pages: dict[str, _Seen], lead: _Leads) -> list[str]:
    names = site / "data" / "names.json"
    if not names.is_file():
        return ["There is no search index."]
    index = site / "data" / str(json.loads(names.read_text(encoding="utf-8")).get("search"))
    if not index.is_file():
        return ["There is no search index."]
    entries = json.loads(index.read_text(encoding="utf-8"))["entries"]
    return [
        f"search: {address} leads nowhere."
        for address, *_ in entries
        if lead.to("", address.partition("#")[0]) not in pages
    ]
