"""A built site looked over: each fault that keeps it from being published, and none that is no fault."""

from pathlib import Path

import pytest
from small_site import PAGE, search_data, small_site

from bowlbook.site.manifest import files_under
from bowlbook.site.verify import look_over


def faults(tmp_path: Path, more: dict[str, str]) -> list[str]:
    small_site(more=more)(tmp_path)
    return look_over(tmp_path, files_under(tmp_path)).faults


def page(body: str) -> str:
    """The page soft/index.html with another body."""
    return PAGE.format(title="Soft", up="../", body=body)


def test_a_sound_site(tmp_path: Path) -> None:
    """Its page for lost addresses may hold what it likes: a link to nowhere."""
    assert faults(tmp_path, {}) == []


@pytest.mark.parametrize(
    ("link", "fault"),
    [
        ('<a href="../gone/">x</a>', "the link ../gone/ leads nowhere."),
        ('<a href="gone.html">x</a>', "the link gone.html leads nowhere."),
        ('<a href="/gone/?a=b#c">x</a>', "the link /gone/?a=b#c leads nowhere."),
        ('<a href="../style">x</a>', "the link ../style leads nowhere."),
        ('<a href="#gone">x</a>', "the link #gone leads to no anchor."),
        ('<a href="../#gone">x</a>', "the link ../#gone leads to no anchor."),
        ('<img src="photo.png" alt="">', "the link photo.png leads nowhere."),
        ('<script src="../gone.js"></script>', "the link ../gone.js leads nowhere."),
        ("<a class=x HREF \n = '../gone/'>x</a>", "the link ../gone/ leads nowhere."),
        ("<a\thref= ../gone/>x</a>", "the link ../gone/ leads nowhere."),
    ],
)
def test_a_link_that_leads_nowhere(tmp_path: Path, link: str, fault: str) -> None:
    assert faults(tmp_path, {"soft/index.html": page(link)}) == [f"soft/index.html: {fault}"]


@pytest.mark.parametrize(
    "link",
    [
        '<a href="../">x</a>',
        '<p title="an img src=x or href=gone in words" aria-label=\'id=x src="y"\'>x</p>',
        '<a href="../#top">x</a>',
        '<a href="./#here">x</a><p id="here">y</p>',
        '<a href="/soft/">x</a>',
        '<a href="..//soft/">x</a>',
        '<a href="../../../soft/#top">x</a>',
        '<a href="../index.html">x</a>',
        '<a href="?query#top">x</a>',
        '<p data-href="gone" data-src = gone>x = y</p>',
        '<a href="../na%C3%AFve/#%C3%A9">x</a>',
        '<a href="mailto:house@example.org">x</a>',
        '<a href="https://example.org/gone">x</a>',
        '<img src="data:image/gif;base64,R0lGODlhAQABAAAAACw=" alt="">',
    ],
)
def test_a_link_that_leads_somewhere(tmp_path: Path, link: str) -> None:
    other = PAGE.format(title="Other", up="../", body='<p id="é">x</p>')
    assert faults(tmp_path, {"soft/index.html": page(link), "naïve/index.html": other}) == []


@pytest.mark.parametrize(
    "request_",
    [
        '<img src="https://example.org/photo.png" alt="">',
        '<script src="//example.org/x.js"></script>',
        '<link rel="stylesheet" href="https://example.org/x.css">',
    ],
)
def test_a_request_to_another_host(tmp_path: Path, request_: str) -> None:
    """The docstring of `look_over` promises it, and the design: no request to any other host."""
    (fault,) = faults(tmp_path, {"soft/index.html": page(request_)})
    assert fault.startswith("soft/index.html: ")
    assert "example.org" in fault


@pytest.mark.parametrize(
    "text",
    [
        "<html><body><article> \n </article></body></html>",
        "<html><body>Text outside the main column.</body></html>",
        "x = y",
        "",
    ],
)
def test_an_empty_page(tmp_path: Path, text: str) -> None:
    more = {"other/index.html": text}
    assert faults(tmp_path, more) == ["other/index.html: the page has no text."]


def test_no_front_page(tmp_path: Path) -> None:
    small_site(more={"soft/index.html": page("x"), **search_data()})(tmp_path)
    (tmp_path / "index.html").unlink()
    assert "There is no front page." in look_over(tmp_path, files_under(tmp_path)).faults


def test_no_search_index(tmp_path: Path) -> None:
    small_site()(tmp_path)
    (tmp_path / "data" / "search-1.json").unlink()
    assert look_over(tmp_path, files_under(tmp_path)).faults == ["There is no search index."]


@pytest.mark.parametrize("location", ["gone/", "gone/#top", "style.css", "soft"])
def test_a_search_entry_that_leads_to_no_page(tmp_path: Path, location: str) -> None:
    found = faults(tmp_path, search_data(location, "soft/"))
    assert found == [f"search: {location.partition('#')[0] and location} leads nowhere."]


def test_every_fault_is_reported(tmp_path: Path) -> None:
    body = '<a href="one/">x</a><a href="two/">x</a><a href="two/">again</a>'
    assert len(faults(tmp_path, {"soft/index.html": page(body), "bare/index.html": ""})) == 3


@pytest.mark.parametrize(
    ("body", "says"),
    [
        ('<a href="/gone/">x</a>', "Links to gone/index.html lead nowhere: 5 pages, such as"),
        ('<a href="/soft/#gone">x</a>', "Links to soft/index.html#gone lead to no anchor: 5 pages, such as"),
        (
            '<img src="//example.org/x.png">',
            "//example.org/x.png is fetched from another host: 5 pages, such as",
        ),
    ],
)
def test_one_cause_on_many_pages_is_one_sentence(tmp_path: Path, body: str, says: str) -> None:
    """Each page may write the address in its own way."""
    bodies = {f"p{number}/index.html": PAGE.format(title="P", up="../", body=body) for number in range(4)}
    bodies["p4/deep/index.html"] = PAGE.format(
        title="P", up="../../", body=body.replace("/gone/", "../../gone/")
    )
    single = {"soft/index.html": page('<a href="other/">x</a>')}
    assert faults(tmp_path, {**bodies, **single}) == [
        f"{says} p0/index.html, p1/index.html, p2/index.html.",
        "soft/index.html: the link other/ leads nowhere.",
    ]


def test_pages_without_text_are_one_sentence(tmp_path: Path) -> None:
    """As where another theme has no column that is looked for."""
    assert faults(tmp_path, {f"p{number}/index.html": "<p>x</p>" for number in range(2)}) == [
        "Pages have no text: 2 pages, such as p0/index.html, p1/index.html."
    ]


def test_the_most_frequent_cause_comes_first(tmp_path: Path) -> None:
    both = '<a href="/a/">x</a><a href="/b/">x</a>'
    more = {
        "p0/index.html": page(both),
        "p1/index.html": page(both),
        "p2/index.html": page('<a href="/b/">x</a>'),
    }
    assert [fault.partition(":")[0] for fault in faults(tmp_path, more)] == [
        "Links to b/index.html lead nowhere",
        "Links to a/index.html lead nowhere",
    ]
