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
        lines += _item(item, indent) if branch.keyed else _list_item(item, indent)
        lines += _indented(item.below, indent)
    return lines


def _item(item: Item, indent: str) -> list[str]:
    """A key and its value."""
    value = item.value
    if isinstance(value, Branch) and not value.brackets and value.items:
        return [_beside(f"{indent}{item.key}:", item), *_items(value, indent + STEP)]
    return _leaf(f"{indent}{item.key}:", item, indent)


def _list_item(item: Item, indent: str) -> list[str]:
    """A dash and its value; a mapping begins on the line of the dash."""
    value = item.value
    if not isinstance(value, Branch) or value.brackets or not value.items:
        return _leaf(f"{indent}-", item, indent)
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
