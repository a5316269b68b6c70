"""Long pages as folds: a page then opens as its own index, with a field to find words on it."""

import re

LEAST = 5
"""A page of the manual with fewer sections is shown whole."""
LONGEST = 160
"""Characters of a section's text that its fold shows while shut."""
SECTION = re.compile(r"(?=<h2[ >])")
SUBHEADING = re.compile(r"<h3[^>]*>(.*?)</h3>", re.S)
PARAGRAPH = re.compile(r"<p>(.*?)</p>", re.S)
ITEM = re.compile(r"<tr>\s*<td[^>]*>(.*?)</td>|<li>(.*?)</li>", re.S)
MARK = re.compile(r'(<div class="bb-folds[^>]*>)</div>')
TAG = re.compile(r"<[^>]*>")


def folded(html: str, *, manual: bool = True) -> str:
    """The page with each section of second level in a fold, under its heading and what is in it.

    The heading stays in sight and keeps its anchor. A page written by hand has the sections after an empty
    ``<div class="bb-folds"></div>`` folded; on a page of the ``manual`` without one, all are.
    """
    intro, *marked = MARK.split(html, maxsplit=1)
    if marked:
        start, rest = marked
        before, *sections = SECTION.split(rest)
        return f"{intro}{before}{start}{''.join(map(_fold, sections))}</div>"
    intro, *sections = SECTION.split(html)
    if not manual or len(sections) < LEAST:
        return html
    return f'{intro}<div class="bb-folds bb-findable">{"".join(map(_fold, sections))}</div>'


def _fold(section: str) -> str:
    heading, end, rest = section.partition("</h2>")
    says = f"<small>{_says(rest)}</small>"
    return f'<details class="bb-fold"><summary>{heading}{end}{says}</summary>{rest}</details>'


def _says(rest: str) -> str:
    """What is in a section: its own headings, else how its text begins, else its rows. HTML without tags."""
    found = SUBHEADING.findall(rest) or PARAGRAPH.findall(rest)[:1] or map("".join, ITEM.findall(rest))
    text = TAG.sub("", "; ".join(found).replace(".;", ";"))
    # A word is never cut, and so no entity is either.
    return text if len(text) <= LONGEST else f"{text[:LONGEST].rpartition(' ')[0]} …"
