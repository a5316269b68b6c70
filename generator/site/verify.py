"""A built site looked over before it is published: links, anchors, assets, search entries, empty pages."""

import json
import re
from dataclasses import dataclass, field
from html import unescape
from pathlib import Path
from urllib.parse import unquote, urldefrag, urljoin, urlsplit

NOT_FETCHED = ("canonical", "prev", "next", "alternate")
"""Kinds of ``<link>`` that a browser does not fetch."""


@dataclass(slots=True)
class _Seen:
    links: list[str] = field(default_factory=list)
    fetched: list[str] = field(default_factory=list)
    anchors: set[str] = field(default_factory=set)
    text: int = 0


TAG = re.compile(r"""<(/?)([a-zA-Z][a-zA-Z0-9-]*)((?:[^>"']|"[^"]*"|'[^']*')*)>|<!--.*?-->""", re.S)
ATTRIBUTE = re.compile(r"""([^\s"'>/=]+)\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s"'>]+))""")
LOOKED_AT = ("id", "name", "href", "src", "rel")
"""What a browser takes as tags and attributes, and which of them count; pages are our own, well formed."""


def _seen(html: str) -> _Seen:
    """Links, anchors and the length of the text in the main column."""
    seen = _Seen()
    after = 0
    in_article = False
    for tag in TAG.finditer(html):
        if in_article:
            seen.text += len(html[after : tag.start()].strip())
        after = tag.end()
        closing, element, attributes = tag.groups()
        if element is None:
            continue
        if element == "article":
            in_article = not closing
        if closing or "=" not in attributes:
            continue
        given = {
            name.lower(): unescape(one or other or bare)
            for name, one, other, bare in ATTRIBUTE.findall(attributes)
            if name.lower() in LOOKED_AT
        }
        for key in ("id", "name"):
            if given.get(key):
                seen.anchors.add(given[key])
        for key in ("href", "src"):
            if given.get(key):
                seen.links.append(given[key])
                if key == "src" or (element == "link" and given.get("rel") not in NOT_FETCHED):
                    seen.fetched.append(given[key])
    return seen


def faults_of(site: Path) -> list[str]:
    """What is wrong with a built site, one sentence each; empty where it may be published.

    Looks at every page: links and assets that lead nowhere, anchors that do not exist, requests to another
    host, pages without text, search entries without a page.
    """
    pages: dict[str, _Seen] = {}
    for path in sorted(site.rglob("*.html")):
        pages[path.relative_to(site).as_posix()] = _seen(path.read_text(encoding="utf-8"))
    faults = []
    if "index.html" not in pages:
        faults.append("There is no front page.")
    for name, seen in pages.items():
        if not seen.text and name != "404.html":
            faults.append(f"{name}: the page has no text.")
        if name != "404.html":
            faults += [f"{name}: {fault}" for fault in _bad_links(site, name, seen, pages)]
    return faults + _bad_search(site, pages)


def _page_at(site: Path, address: str) -> str | None:
    """The file that an address of the site leads to, relative to the site; None where there is none."""
    relative = unquote(address).lstrip("/")
    if not relative or relative.endswith("/"):
        relative += "index.html"
    return relative if (site / relative).is_file() else None


def _bad_links(site: Path, name: str, seen: _Seen, pages: dict[str, _Seen]) -> list[str]:
    faults = [
        f"{link} is fetched from another host."
        for link in dict.fromkeys(seen.fetched)
        if urlsplit(link).netloc
    ]
    for link in dict.fromkeys(seen.links):
        parts = urlsplit(link)
        if parts.scheme or parts.netloc or link.startswith("data:"):
            continue
        target, anchor = urldefrag(urljoin("/" + name, link))
        found = _page_at(site, urlsplit(target).path)
        if found is None:
            faults.append(f"the link {link} leads nowhere.")
        elif anchor and found in pages and unquote(anchor) not in pages[found].anchors:
            faults.append(f"the link {link} leads to no anchor.")
    return faults


def _bad_search(site: Path, pages: dict[str, _Seen]) -> list[str]:
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
        if _page_at(site, "/" + urldefrag(address)[0]) not in pages
    ]
