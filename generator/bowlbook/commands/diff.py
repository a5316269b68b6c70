"""``bowlbook diff``: what changed at the bench since a git revision."""

import re
import sys
from collections.abc import Iterable
from pathlib import Path

import click

from bowlbook.book.book import Book
from bowlbook.book.revision import NoRevision, reading_at
from bowlbook.cache.cache import open_cache
from bowlbook.commands.printer import echo, print_json, recipes_option, whole_book, wrong_use
from bowlbook.figures.difference import Difference, differences
from bowlbook.reading.finding import Finding
from bowlbook.wording.difference import fact_sentence, in_short, title_of, who_should_know


@click.command()
@click.argument("revision", metavar="REV")
@recipes_option
@click.option("--json", "as_json", is_flag=True, help="Print the changes as JSON.")
@click.option("--comment", is_flag=True, help="Print them as Markdown, for a comment on a pull request.")
def command(revision: str, recipes: Path, as_json: bool, comment: bool) -> None:
    """Say what changed at the bench since REV, a git commit, branch or tag.

    Amounts at each size, developer, peroxide, costs, and who should know. Exit 0 also where much changed;
    exit 1 where a file could not be read at REV: the rest is compared.
    """
    new = whole_book(recipes)
    with wrong_use(NoRevision), open_cache(recipes) as cache:
        then = reading_at(recipes, revision, lambda text: echo(f"{revision}: {text}", err=True), cache)
    unread = unread_lines(then.findings, revision)
    found = None if then.book is None else differences(then.book, new)
    if comment:
        echo(comment_text(new, found, revision, unread))
    else:
        if unread:
            echo("\n".join([f"Not read at {revision}:", *(f"  {line}" for line in unread)]), err=True)
        if as_json and found is not None:
            print_json([difference_data(each) for each in found])
        elif found is not None:
            echo(_text(new, found))
    # After printing: what could be compared is still of use.
    if unread:
        sys.exit(1)


def unread_lines(findings: Iterable[Finding], revision: str) -> list[str]:
    """A line for each file that could not be read at a revision: its first error, and how many more."""
    by_file: dict[str, list[Finding]] = {}
    for finding in findings:
        if finding.severity == "error":
            by_file.setdefault(finding.place.path, []).append(finding)
    return [
        f"{revision}:{first.place}: {first.code} {first.message}"
        + (f" (and {len(more)} more)" if more else "")
        for first, *more in by_file.values()
    ]


def difference_data(each: Difference) -> dict[str, object]:
    """One difference as plain data; ``known_by`` as kind and id."""
    return {
        **each._asdict(),
        "facts": [{"what": fact.what, "before": fact.before, "after": fact.after} for fact in each.facts],
        "known_by": [{"kind": kind, "id": entry_id} for kind, entry_id in each.known_by],
    }


def difference_lines(found: list[Difference]) -> list[str]:
    """Each entry with what is different of it, then how many of what."""
    lines = []
    for each in found:
        lines += [title_of(each), *(f"  {fact_sentence(fact)}" for fact in each.facts)]
    return [*lines, in_short(found)]


def _text(book: Book, found: list[Difference]) -> str:
    lines = difference_lines(found)
    known = who_should_know(book, found)
    if known:
        lines.append("Who should know:")
        lines += [f"  {title}: {', '.join(names)}" for title, names in known]
    return "\n".join(lines)


def comment_text(book: Book, found: list[Difference] | None, revision: str, unread: list[str]) -> str:
    """The differences as Markdown. Authors' text is escaped: no markup, no mention, no link.

    ``found``: None where the revision has no house that could be read. ``unread``: what could not be read at
    the revision, one line a file.
    """
    short = "Nothing was compared." if found is None else in_short(found)
    lines = [f"### At the bench, since {_escaped(revision)}", "", short, ""]
    if unread:
        lines += [f"**Not read at {_escaped(revision)}:**", ""]
        lines += [*(f"- {_escaped(line)}" for line in unread), ""]
    for each in found or []:
        lines += [f"<details><summary>{_escaped(title_of(each))}</summary>", ""]
        lines += [f"- {_escaped(fact_sentence(fact))}" for fact in each.facts] or ["- nothing else"]
        lines += ["", "</details>", ""]
    for title, names in who_should_know(book, found or []):
        lines += [f"**{title} that should know:** {_escaped(', '.join(names))}", ""]
    return "\n".join(lines).rstrip()


def _escaped(text: str) -> str:
    """Text with every character that could form Markdown, HTML or a mention as a character reference."""
    return re.sub(r"[^\w ,.:;%()→“”’–×+\-]", lambda sign: f"&#{ord(sign[0])};", text)
