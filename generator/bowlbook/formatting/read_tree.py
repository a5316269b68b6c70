"""An entry's text to a tree of items: every comment is given to the item it belongs to.

A comment on a line of its own belongs to what comes next, unless it is indented deeper than that: then it
ends what comes before. One behind a value belongs to that value.
"""

import json
import re
from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from bowlbook.formatting.tree import BLANK, Branch, Item, Leaf, Tree
from bowlbook.reading.nodes import Node, nodes_of

WIDTH = 120
"""Characters of a line that a text or a bracket spread over several lines may fill when it is joined."""
HEADER = re.compile(r"(?P<sign>[|>][-+0-9]*)[ ]*(?P<comment>#.*)?")
SCHEMA_LINE = "# yaml-language-server:"
PLAIN_KEY = re.compile(r"[a-z_]+")


def tree_of(text: str) -> Tree:
    """The tree of a text that `document.read_text` can read. Raises ValueError for any other."""
    top = nodes_of(text)
    if top.kind != "mapping":
        raise ValueError("an entry is keys and values")
    return _Reader(text, top).tree()


@dataclass
class _Comment:
    """A comment: where it is, whether its line is its own, and whether a blank line is above that."""

    at: int
    line: int
    column: int
    text: str
    alone: bool
    blank: bool


@dataclass
class _Placed:
    """An item with the lines and the column at which it begins, and the line on which a comment is beside it.

    ``ends``: the line on which a comment behind its value is beside it; -1 where none can be.
    """

    item: Item
    start: int
    line: int
    column: int
    ends: int


class _Reader:
    """Makes items of nodes, and assigns the comments between them to items."""

    def __init__(self, text: str, top: Node) -> None:
        self.text, self.top = text, top
        self.breaks = [at for at, sign in enumerate(text) if sign == "\n"]
        self.lines = text.split("\n")
        scalars = list(_scalars(top))
        self.kept = {line for each in scalars for line in self._kept_lines(each)}
        # A # within a value begins no comment; what is left beside values and comments is signs of YAML.
        signs = _blanked(text, ((each.start, each.end) for each in scalars))
        self.comments = [self._comment(found) for found in re.finditer("#.*", signs)]
        self.bare = _blanked(text, ((each.at, each.at + len(each.text)) for each in self.comments))
        self.placed: list[_Placed] = []

    def line_of(self, at: int) -> int:
        return bisect_right(self.breaks, at - 1)

    def column_of(self, at: int) -> int:
        return at - (self.text.rfind("\n", 0, at) + 1)

    def _comment(self, found: re.Match[str]) -> _Comment:
        at, line, column = found.start(), self.line_of(found.start()), self.column_of(found.start())
        alone = not self.lines[line][:column].strip()
        return _Comment(at, line, column, found[0].rstrip(), alone, alone and self._blank_above(line))

    def _kept_lines(self, node: Node) -> range:
        """The lines of a text behind |+ or >+, of which also blank ones at the end count."""
        keeps = node.style in ("|", ">") and "+" in self.text[node.start : node.start + 3]
        return range(self.line_of(node.start), self.line_of(node.end)) if keeps else range(0)

    def _blank_above(self, line: int) -> bool:
        """Whether a blank line is above that belongs to no text behind |+ or >+."""
        return line > 0 and not self.lines[line - 1].strip() and line - 1 not in self.kept

    def tree(self) -> Tree:
        """The whole text, every comment and blank line in its place."""
        tree = Tree(self._branch(self.top, 0))
        self._place_comments(tree)
        return tree

    def _branch(self, node: Node, after: int) -> Branch:
        """A mapping or list. ``after``: where what comes before it ends."""
        keyed = node.kind == "mapping"
        brackets = node.style == "{" and not self._breaks_brackets(node)
        made = Branch(keyed, brackets=brackets or not node.inside)
        step = 2 if keyed else 1
        before = max(after, node.start) if node.style == "{" else after
        for at in range(0, len(node.inside), step):
            first, value = node.inside[at], node.inside[at + step - 1]
            start = first.start if keyed or node.style == "{" else self._dash(before, first.start)
            item = Item(self._key(first) if keyed else None, Leaf(""))
            placed = _Placed(item, start, self.line_of(start), self.column_of(start), self.line_of(start))
            if not made.brackets:
                self.placed.append(placed)
            item.value = self._value(value, first.end if keyed else start + 1, placed, made.brackets)
            made.items.append(item)
            before = value.end
        return made

    def _value(self, value: Node, after: int, placed: _Placed, in_brackets: bool) -> Leaf | Branch:
        if value.kind == "scalar":
            found = self._scalar(value, placed, in_brackets)
            placed.ends = self.line_of(max(value.start, value.end - 1)) if not found.lines else placed.line
            if value.style in ("|", ">"):
                placed.ends = -1  # a # behind its text would be text
            return found
        branch = self._branch(value, after)
        if branch.brackets:
            placed.ends = self.line_of(max(value.start, value.end - 1))
        return branch

    def _breaks_brackets(self, node: Node) -> bool:
        """Whether brackets are to be written as lines: with a comment in them, or spread and too long."""
        if any(node.start < each.at < node.end for each in self.comments):
            return True
        if self.line_of(node.start) == self.line_of(node.end - 1):
            return False
        start = self.text.rfind("\n", 0, node.start) + 1
        return len(" ".join(self.text[start : node.end].split())) > WIDTH

    def _dash(self, after: int, before: int) -> int:
        """Where the dash of a list's value is."""
        return self.bare.index("-", after, max(before, after + 1)) if after < before else before

    def _key(self, node: Node) -> str:
        if node.style and PLAIN_KEY.fullmatch(node.value):
            return node.value
        return self.text[node.start : node.end]

    def _scalar(self, node: Node, placed: _Placed, in_brackets: bool) -> Leaf:
        raw = self.text[node.start : node.end]
        if node.style in ("|", ">"):
            return self._block(node, placed)
        if "\n" not in raw:
            # One kind of quotes, but where quotes or backslashes would then mean something else.
            if node.style == "'" and not re.search(r"""['"\\]""", raw[1:-1]):
                return Leaf(f'"{raw[1:-1]}"')
            return Leaf(raw)
        quoted = json.dumps(node.value, ensure_ascii=False)
        one_line = quoted if node.style or "\n" in node.value else node.value
        room = WIDTH - placed.column - len(placed.item.key or "") - 2
        words = node.value.split(" ")
        if in_brackets or "\n" in node.value or len(one_line) <= room:
            return Leaf(one_line)
        # Folded text turns each of its breaks into one space: only single spaces come back the same.
        if not all(words) or not re.match(r"\S", node.value):
            return Leaf(quoted)
        return Leaf(">-", _wrapped(words, WIDTH - placed.column - 2))

    def _block(self, node: Node, placed: _Placed) -> Leaf:
        """A text behind | or >, without its indentation, and with the comment of its first line."""
        first, *lines = self.text[node.start : node.end].split("\n")
        header = HEADER.fullmatch(first.rstrip())
        if header is None:
            raise ValueError("a text behind | or > begins on the next line")
        if header["comment"]:
            placed.item.beside = header["comment"]
            placed.item.column = self.column_of(node.start) + header.start("comment")
        sign = header["sign"]
        if re.search("[0-9]", sign):
            raise ValueError("a text behind | or > with a number")
        cut = next((len(line) - len(line.lstrip(" ")) for line in lines if line.strip(" ")), 0)
        kept = [line[cut:] for line in lines]
        while kept and not kept[-1].strip():
            kept.pop()
        if "+" in sign:
            at_end = len(node.value) - len(node.value.rstrip("\n")) - 1
            kept += [""] * at_end
            sign = sign if at_end > 0 else sign.replace("+", "")
        return Leaf(sign, kept)

    def _place_comments(self, tree: Tree) -> None:
        """Give every comment and blank line between items to an item, or to the head or end of the text."""
        self.placed.sort(key=lambda each: each.start)
        starts = [each.start for each in self.placed]
        head = self._head()
        for comment in self.comments:
            number = bisect_right(starts, comment.at)
            if comment.line < head:
                _add(tree.head, comment)
            elif not comment.alone:
                self._beside(comment, self.placed[:number])
            elif number < len(starts) and comment.column <= self.placed[number].column:
                _add(self.placed[number].item.above, comment)
            elif number == len(starts) and not comment.column:
                _add(tree.end, comment)
            else:
                holder = max(
                    (each for each in self.placed[:number] if each.column <= comment.column),
                    key=lambda each: each.start,
                )
                _add(holder.item.below, comment)
        for each in self.placed[1:]:
            before = self.lines[each.line][: each.column]
            if self._blank_above(each.line) and not before.strip():
                each.item.above.append(BLANK)

    def _head(self) -> int:
        """The line at which the text's own comments end: what is right above the first key belongs to that.

        Editors look for the schema's line at the top, so that one stays there.
        """
        first = self.placed[0].line if self.placed else len(self.lines)
        for line in range(first, 0, -1):
            above = self.lines[line - 1]
            if not above.strip() or above.startswith(SCHEMA_LINE):
                return line
        return 0

    def _beside(self, comment: _Comment, before: list[_Placed]) -> None:
        for each in reversed(before):
            if each.ends == comment.line and not each.item.beside:
                each.item.beside, each.item.column = comment.text, comment.column
                return
        if not before:
            raise ValueError("a comment that belongs to nothing")
        _add(before[-1].item.below, comment)


def _add(lines: list[str], comment: _Comment) -> None:
    lines += [BLANK, comment.text] if comment.blank else [comment.text]


def _blanked(text: str, spans: Iterable[tuple[int, int]]) -> str:
    """The text with spaces in the place of some spans, each within it; line breaks stay."""
    signs = list(text)
    for start, end in spans:
        signs[start:end] = (sign if sign == "\n" else " " for sign in text[start:end])
    return "".join(signs)


def _scalars(node: Node) -> Iterator[Node]:
    if node.kind == "scalar":
        yield node
    for each in node.inside:
        yield from _scalars(each)


def _wrapped(words: list[str], width: int) -> list[str]:
    """The words in lines of at most so many characters, longer words alone."""
    lines = [words[0]]
    for word in words[1:]:
        if len(lines[-1]) + 1 + len(word) <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines
