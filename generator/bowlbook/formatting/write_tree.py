"""A tree of items to text: two spaces a level, lists two deeper than their key, two before a comment."""

from bowlbook.formatting.tree import BLANK, Branch, Item, Leaf, Tree

STEP = "  "


def write_tree(tree: Tree) -> str:
    """The text, with one newline at its end."""
    written_lines: list[str] = []
    head = [*tree.head, BLANK] if tree.head else []
    for line in (*head, *_items(tree.top, ""), *tree.end):
        if line != BLANK:
            written_lines.append(line)
        elif written_lines and written_lines[-1]:
            written_lines.append("")
    return "\n".join(written_lines) + "\n"


def in_brackets(branch: Branch) -> str:
    """A mapping or list on one line."""
    inner = []
    for item in branch.items:
        value = item.value.inline if isinstance(item.value, Leaf) else in_brackets(item.value)
        inner.append(f"{item.key}: {value}".rstrip() if branch.keyed else value)
    return "{" + ", ".join(inner) + "}" if branch.keyed else "[" + ", ".join(inner) + "]"


def _items(branch: Branch, indent: str) -> list[str]:
    lines: list[str] = []
    for item in branch.items:
        lines += _indented(item.above, indent)
        value = item.value
        start = f"{indent}{item.key}:" if branch.keyed else f"{indent}-"
        if not isinstance(value, Branch) or value.brackets or not value.items:
            lines += _leaf(start, item, indent)
        elif branch.keyed:
            lines += [_beside(start, item), *_items(value, indent + STEP)]
        else:
            lines += _list_item(item, value, indent)
        lines += _indented(item.below, indent)
    return lines


def _list_item(item: Item, value: Branch, indent: str) -> list[str]:
    """A dash and the mapping or list that begins on its line."""
    first = value.items[0]
    above = _indented(first.above, indent)
    if item.beside:
        above.insert(0, indent + item.beside)
    # The dash stands on the line of the first key, so the comments above that go above the dash.
    first.above, kept = [], first.above
    lines = _items(value, indent + STEP)
    first.above = kept
    return [*above, f"{indent}- {lines[0][len(indent) + 2 :]}", *lines[1:]]


def _leaf(start: str, item: Item, indent: str) -> list[str]:
    """A value that begins behind its key or dash: a text, or anything in brackets."""
    value = item.value
    if isinstance(value, Branch):
        return [_beside(f"{start} {in_brackets(value)}", item)]
    inner = indent + STEP
    first = _beside(f"{start} {value.inline}".rstrip(), item)
    return [first, *(line and inner + line for line in value.lines)]


def _indented(comments: list[str], indent: str) -> list[str]:
    return [line if line == BLANK else indent + line for line in comments]


def _beside(line: str, item: Item) -> str:
    """The line with its comment: where that was lined up it stays in its column."""
    if not item.beside:
        return line
    return line.ljust(max(item.column, len(line) + 2)) + item.beside
