"""Authors' free text: Markdown, cleaned by an allow-list after rendering."""

import re
from functools import cache
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from bowlbook.pages.render import finished

if TYPE_CHECKING:
    from markdown import Markdown

TAGS = {
    *("p", "br", "hr", "em", "strong", "code", "pre", "blockquote", "ul", "ol", "li", "a"),
    *("h3", "h4", "h5", "h6", "table", "thead", "tbody", "tr", "th", "td"),
}
ATTRIBUTES = {"a": {"href", "title"}, "ol": {"start"}}
SCHEMES = {"https", "http"}
HEADING = re.compile("<(/?)h([1-6])>")


@cache
def _markdown() -> "Markdown":
    from markdown import Markdown

    # One instance for all texts: building one costs more than converting a text.
    made = Markdown(extensions=["tables", "sane_lists"], output_format="html")
    # Raw HTML is text here, not markup.
    made.preprocessors.deregister("html_block")
    made.inlinePatterns.deregister("html")
    made.inlinePatterns.deregister("entity")
    return made


def _web_links_only(tag: str, attribute: str, value: str) -> str | None:
    """An attribute's value; None for a link that is not http or https.

    nh3 checks schemes but lets relative links pass; those would break when a page moves.
    """
    return None if attribute == "href" and not value.lower().startswith(("https://", "http://")) else value


def _relevelled(html: str) -> str:
    """Headings from the third level down with no level skipped, whatever levels the author used."""
    above: list[int] = []

    def levelled(tag: re.Match[str]) -> str:
        if not tag[1]:
            while above and above[-1] >= int(tag[2]):
                above.pop()
            above.append(int(tag[2]))
        return f"<{tag[1]}h{min(len(above) + 2, 6)}>"

    return HEADING.sub(levelled, html)


def free_text(text: str | None) -> Markup:
    """Markdown as safe HTML: emphasis, lists, links, tables, headings from the third level down.

    Raw HTML, pictures, scripts, styles and attributes are removed. Only http(s) links stay.
    """
    if not text:
        return finished("")
    import nh3

    try:
        html = _markdown().reset().convert(text)
    except RecursionError:  # nested too deep: shown as it was written rather than lost
        html = f"<p>{escape(text)}</p>"
    cleaned = nh3.clean(
        _relevelled(html),
        tags=TAGS,
        attributes=ATTRIBUTES,
        attribute_filter=_web_links_only,
        url_schemes=SCHEMES,
        link_rel="noopener noreferrer",
    )
    # A wide table scrolls in its own box; with tabindex the keyboard reaches it.
    wide = cleaned.replace("<table>", '<div class="bb-wide" tabindex="0"><table>')
    return finished(wide.replace("</table>", "</table></div>"))
