"""Long pages of the manual as folds: a page then opens as its own index, with a field to find words on it."""

import re

LEAST = 5
"""A page with fewer sections is shown whole."""
LONGEST = 160
"""Characters of a section's text that its fold shows while shut."""
SECTION = re.compile(r"(?=<h2[ >])")
SUBHEADING = re.compile(r"<h3[^>]*>(.*?)</h3>", re.S)
PARAGRAPH = re.compile(r"<p>(.*?)</p>", re.S)
TAG = re.compile(r"<[^>]*>")


def folded(html: str) -> str:
    """The page with each section of second level in a fold, under its heading and what is in it.

    The heading stays in sight and keeps its anchor; what stands before the first one is not folded.
    """
    intro, *sections = SECTION.split(html)
    if len(sections) < LEAST:
        return html
    return f'{intro}<div class="bb-folds bb-findable">{"".join(map(_fold, sections))}</div>'


def _fold(section: str) -> str:
    heading, end, rest = section.partition("</h2>")
    says = f"<small>{_says(rest)}</small>"
    return f'<details class="bb-fold"><summary>{heading}{end}{says}</summary>{rest}</details>'


def _says(rest: str) -> str:
    """What is in a section: its own headings, else the beginning of its text. HTML without tags."""
    found = SUBHEADING.findall(rest) or PARAGRAPH.findall(rest)[:1]
    text = TAG.sub("", "; ".join(found))
    # A word is never cut, and so no entity is either.
    return text if len(text) <= LONGEST else f"{text[:LONGEST].rpartition(' ')[0]} …"
