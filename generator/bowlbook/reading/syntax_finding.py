"""Findings for a text that is not YAML, in our own words: the parser's may quote what is private."""

import re

from bowlbook.reading.cut_text import Cut
from bowlbook.reading.finding import Finding
from bowlbook.reading.place import Place
from bowlbook.reading.source import Source
from bowlbook.reading.yaml_reader import SyntaxProblem

COMPLAINTS = (
    # what the parser says, at which of its two marks, in our words, and the mend
    ("mapping values are not allowed", "problem",
     "There is a second colon in this line, or the line above is not finished.",
     'Put text that holds a colon in quotes: because: "first: rinse".'),
    ("scanning an alias", "context", "A value cannot begin with *.", "Put the text in quotes."),
    ("scanning an anchor", "context", "A value cannot begin with &.", "Put the text in quotes."),
    ("a tag", "context", "A value cannot begin with !.", "Put the text in quotes."),
    ("undefined tag handle", "problem", "A value cannot begin with !.", "Put the text in quotes."),
    ("character that cannot start", "problem", "A value cannot begin with this character.",
     "Put the text in quotes."),
    ("unknown escape", "problem", "A backslash in double quotation marks begins a code, and this is none.",
     "Write the backslash twice, or put the text in single marks."),
    ("Unicode character escape", "problem", "This backslash code in double quotation marks is no character.",
     "Type the character itself, or put the text in single marks."),
    ("expected hexdecimal number", "problem",
     "A backslash in double quotation marks begins a code of digits, and these are not enough.",
     "Write the backslash twice, or put the text in single marks."),
    ("quoted scalar", "context", "A quotation mark is opened here and never closed.",
     "Close it with the same mark."),
    ("parsing a flow", "context", "A list or mapping in brackets is not closed, or lacks a comma.",
     "Close it with ] or }, with a comma between its parts."),
    ("could not find expected ':'", "context",
     "This line has no colon after its key, or belongs to the line above.",
     "Write key: value; indent a continued text deeper than its key."),
)  # fmt: skip
NO_COMPLAINT = (
    "The lines do not fit together here as YAML.",
    "Check the indentation against the lines above: two spaces a level.",
)
"""Message and mend for what no row of `COMPLAINTS` knows."""


def follows_from(problem: SyntaxProblem, cut: Cut) -> bool:
    """Whether the parser complains only because a text was cut, by its brackets or its next line."""
    if problem.context is not None and "parsing a flow" in problem.context and problem.context_at is not None:
        return problem.context_at[0] <= cut.line and re.search(r"[\]}]", cut.text) is not None
    return problem.problem_at is not None and problem.problem_at[0] == cut.line + 1


def syntax_finding(source: Source, problem: SyntaxProblem) -> Finding:
    """A parser's complaint in our own words: its own may quote what is private."""
    said = f"{problem.context} {problem.problem}"
    known = (row[1:] for row in COMPLAINTS if row[0] in said)
    which, message, mend = next(known, ("problem", *NO_COMPLAINT))
    at = problem.context_at if which == "context" else problem.problem_at
    lines = source.text.split("\n")
    line, column = (at[0] + 1, at[1] + 1) if at else (1, 1)
    while line > 1 and not "".join(lines[line - 1 : line]).strip():  # at its end, or in an empty line
        line -= 1
        column = len(lines[line - 1])
    text = lines[line - 1]
    if "parsing a flow node" in said and "???" in text:  # a gap inside brackets is no YAML
        place = Place(source.path, line, text.index("???") + 1)
        return source.finding_at(place, "not-filled-in", "Not filled in yet.", "Write the value.")
    before = text[: len(text) - len(text.lstrip())]
    if "\t" in before:
        message, mend = "There is a tab here.", "Indent with two spaces a level; YAML takes no tabs."
        column = text.index("\t") + 1
    return source.finding_at(Place(source.path, line, max(column, 1)), "not-yaml", message, mend)
