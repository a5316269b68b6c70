"""A built site looked over before it is published: links, anchors, assets, search entries, empty pages."""

import json
import marshal
import os
import posixpath
import re
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import partial
from html import unescape
from pathlib import Path
from typing import NamedTuple
from urllib.parse import unquote, urlsplit

from bowlbook.book.kept import digest, program
from bowlbook.reading.source import open_quote_of
from bowlbook.site.kept_rows import KeptRows
from bowlbook.site.manifest import files_under
from bowlbook.site.processes import all_made

NOT_FETCHED = ("canonical", "prev", "next", "alternate")
"""Kinds of ``<link>`` that a browser does not fetch."""
LOST = "404.html"
"""The page for lost addresses: a server shows it anywhere, so that its links lead from everywhere."""


@dataclass(slots=True)
class _Seen:
    links: list[str] = field(default_factory=list)
    fetched: list[str] = field(default_factory=list)
    anchors: set[str] = field(default_factory=set)
    has_text: bool = False


GIVEN = re.compile(r"""\s(id|name|href|src)\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s"'>]+))""", re.I)
REL = re.compile(r"""\srel\s*=\s*["']?([^"'>]*)""", re.I)
COMMENT = re.compile(r"<!--.*?-->", re.S)
ARTICLE = re.compile(r"<article\b[^>]*(?=>)")
TEXT = re.compile(r">\s*[^\s<]")


def _seen(html: str) -> _Seen:
    """Links, anchors, and whether there is a text in the main column.

    For well-formed pages: an attribute is what stands between ``<`` and ``>`` and in no other attribute's
    quotation marks. Quicker than a parser, which a thousand pages would be waited for.
    """
    html = COMMENT.sub("", html)
    seen = _Seen(has_text=any(_has_text(html, found.end()) for found in ARTICLE.finditer(html)))
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


def _has_text(html: str, start: int) -> bool:
    """Whether there is a text between the tag that ends at ``start`` and the end of the article."""
    end = html.find("</article>", start)
    return end >= 0 and TEXT.search(html, start, end) is not None


def _outside_quotes(html: str, start: int, end: int) -> bool:
    """Whether no quotation is open at ``end`` in the tag that begins at ``start``."""
    if html.count("'", start, end) == 0:
        return html.count('"', start, end) % 2 == 0
    return not open_quote_of(html[start:end])


def _rel(html: str, start: int) -> str:
    found = REL.search(html, start, html.find(">", start))
    return found[1] if found else ""


Lead = tuple[str, str, str]
"""A link as it is written, which file of the site it leads to, and to which anchor there, if any."""
Look = tuple[bool, list[str], list[Lead], list[str]]
"""A page: whether it has a text, what it fetches from other hosts, its leads, its anchors."""


def faults_of(site: Path, kept: Path | None = None) -> list[str]:
    """What is wrong with a built site, one sentence each; empty where it may be published.

    What several pages have from one cause, such as a page that is missing, is one sentence with their number.
    Looks at every page: links and assets that lead nowhere, anchors that do not exist, requests to another
    host, pages without text, search entries without a page. ``kept``: where what was seen of a page is kept
    by its name and content, for the next time.
    """
    files = files_under(site)
    names = [name for name in files if name.endswith(".html")]
    there, pages = set(files), set(names)
    faults: list[_Fault] = []
    anchored: list[tuple[str, int, Lead]] = []
    anchors: dict[str, frozenset[str]] = {}
    for name, (has_text, foreign, leads, own) in _looks(site, names, kept):
        anchors[name] = frozenset(map(sys.intern, own))
        if name == LOST:
            continue
        if not has_text:
            faults.append(_Fault(name, 0, "the page has no text", "Pages have no text"))
        for link in foreign:
            text = f"{link} is fetched from another host"
            faults.append(_Fault(name, 1, text, text))
        for place, lead in enumerate(leads, 2):
            link, path, anchor = lead
            if path not in there:
                text = f"the link {link} leads nowhere"
                faults.append(_Fault(name, place, text, f"Links to {path} lead nowhere"))
            elif anchor and path in pages:
                anchored.append((name, place, lead))
    for name, place, (link, path, anchor) in anchored:
        if anchor not in anchors[path]:
            text = f"the link {link} leads to no anchor"
            faults.append(_Fault(name, place, text, f"Links to {path}#{anchor} lead to no anchor"))
    first = [] if "index.html" in pages else ["There is no front page."]
    return first + _by_cause(faults) + _bad_search(site, pages)


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


def _looks(site: Path, names: list[str], kept: Path | None) -> Iterator[tuple[str, Look]]:
    """What is seen of each page."""
    rows = KeptRows(kept)
    known = dict(rows.every())
    told = program("reading", "site")
    found = all_made([partial(_look, site, name, told, known) for name in names])
    fresh = [(key, look) for key, look in found if look is not None]
    rows.write(fresh, [key for key, _ in found])
    for name, (key, look) in zip(names, found, strict=True):
        yield name, marshal.loads(known[key] if look is None else look)


def _look(site: Path, name: str, told: bytes, known: Mapping[str, bytes]) -> list[tuple[str, bytes | None]]:
    """Under which key a page is kept, and what is seen of it, packed, where that is not kept."""
    content = (site / name).read_bytes()
    key = digest(told, os.fsencode(name), content).hex()
    if key in known:
        return [(key, None)]
    seen = _seen(content.decode("utf-8", "replace"))
    foreign = [link for link in dict.fromkeys(seen.fetched) if urlsplit(link).netloc]
    look: Look = (seen.has_text, foreign, list(_leads(name, seen.links)), sorted(seen.anchors))
    return [(key, marshal.dumps(look))]


ELSEWHERE = re.compile(r"[a-z][a-z0-9+.-]*:|//", re.I)
"""How an address begins that leads out of the site."""


def _leads(name: str, links: list[str]) -> Iterator[Lead]:
    """Where a page's links lead, as far as they lead to the site, each once."""
    folder = posixpath.dirname(name)
    for link in dict.fromkeys(links):
        if not ELSEWHERE.match(link):
            rest, _, anchor = link.partition("#")
            path = rest.partition("?")[0]
            yield link, _file_at(folder, path) if path else name, unquote(anchor)


def _file_at(folder: str, path: str) -> str:
    """The file for a path as a page in ``folder`` gives it, whether there is one or not."""
    there = posixpath.normpath(posixpath.join("/", folder, unquote(path))).lstrip("/")
    if path in ("", ".", "..") or path.endswith(("/", "/.", "/..")):
        return f"{there}/index.html".lstrip("/")
    return there


def _bad_search(site: Path, pages: set[str]) -> list[str]:
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
        if _file_at("", address.partition("#")[0]) not in pages
    ]
