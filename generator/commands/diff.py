"""``bowlbook diff``: what a change does at the bench, against any git revision."""

import json
import re
from pathlib import Path
from typing import Any

import click

from generator.book.book import Book
from generator.book.revision import NoRevision, book_at
from generator.commands.printer import echo, recipes_option, whole_book
from generator.figures.difference import Difference, differences
from generator.pages.difference_words import fact_sentence, in_short, title_of, who_should_know


@click.command()
@click.argument("revision", metavar="REV")
@recipes_option
@click.option("--json", "as_json", is_flag=True, help="Print the changes as JSON.")
@click.option("--comment", is_flag=True, help="Print them as Markdown, for a comment on a pull request.")
def command(revision: str, recipes: Path, as_json: bool, comment: bool) -> None:
    """Say what changed at the bench since REV, a git commit, branch or tag.

    Amounts at each size, developer, peroxide, costs, and who should know. Exit 0 also where much changed.
    """
    new = whole_book(recipes)
    try:
        old = book_at(recipes, revision, lambda text: click.echo(f"{revision}: {text}", err=True))
    except NoRevision as error:
        raise click.UsageError(str(error)) from error
    if old is None:
        raise click.UsageError(f'The book at "{revision}" could not be read.')
    found = differences(old, new)
    if as_json:
        echo(json.dumps([difference_data(new, each) for each in found], indent=2, ensure_ascii=False))
    elif comment:
        echo(comment_text(new, found, revision))
    else:
        echo(_text(new, found))


def difference_data(book: Book, each: Difference) -> dict[str, Any]:
    """One difference as plain data; ``known_by`` as kind and id."""
    return {
        "kind": each.kind,
        "id": each.id,
        "name": each.name,
        "was": each.was,
        "state": each.state,
        "facts": [{"what": fact.what, "before": fact.before, "after": fact.after} for fact in each.facts],
        "known_by": [{"kind": kind, "id": entry_id} for kind, entry_id in each.known_by],
    }


def _text(book: Book, found: list[Difference]) -> str:
    lines = []
    for each in found:
        lines.append(title_of(each))
        lines += [f"  {fact_sentence(fact)}" for fact in each.facts]
    lines.append(in_short(found))
    known = who_should_know(book, found)
    if known:
        lines.append("Who should know:")
        lines += [f"  {title}: {', '.join(names)}" for title, names in known]
    return "\n".join(lines)


def comment_text(book: Book, found: list[Difference], revision: str) -> str:
    """The same as Markdown. Whatever an author wrote is shown as text: no markup, no mention, no link."""
    lines = [f"### At the bench, since {_quiet(revision)}", "", in_short(found), ""]
    for each in found:
        lines += [f"<details><summary>{_quiet(title_of(each))}</summary>", ""]
        lines += [f"- {_quiet(fact_sentence(fact))}" for fact in each.facts] or ["- nothing else"]
        lines += ["", "</details>", ""]
    for title, names in who_should_know(book, found):
        lines.append(f"**{title} that should know:** {_quiet(', '.join(names))}")
        lines.append("")
    return "\n".join(lines).rstrip()


def _quiet(text: str) -> str:
    """Text with every sign that Markdown, HTML or a mention could be made of written as a code."""
    return re.sub(r"[^\w ,.:;%()→“”’–×+\-]", lambda sign: f"&#{ord(sign[0])};", text)
