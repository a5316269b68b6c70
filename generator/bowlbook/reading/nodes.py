"""A YAML text as nodes with their places and their style: what `bowlbook.formatting` writes out again.

Nothing is resolved: every scalar is text, as in `document`. Comments are in no node.
"""

from typing import Any, NamedTuple

import yaml


class Node(NamedTuple):
    """One value. ``start`` and ``end`` count characters from the beginning of the text.

    ``style``: of a scalar ``"``, ``'``, ``|``, ``>`` or nothing; of a mapping or list ``{`` where it is in
    brackets, else nothing. ``inside``: a mapping's keys and values in turn, a list's values.
    """

    kind: str
    start: int
    end: int
    style: str
    value: str = ""
    inside: tuple["Node", ...] = ()


def nodes_of(text: str) -> Node:
    """The top node of a text that `document.read_text` can read. Raises ValueError for any other."""
    loader = yaml.CBaseLoader(text)
    try:
        found = loader.get_single_node()
    except yaml.YAMLError as error:
        raise ValueError("this is no YAML") from error
    finally:
        loader.dispose()
    if found is None:
        raise ValueError("this is empty")
    return _node(found)


def _node(found: Any) -> Node:
    start, end = found.start_mark.index, found.end_mark.index
    if isinstance(found, yaml.ScalarNode):
        return Node("scalar", start, end, found.style or "", found.value)
    style = "{" if found.flow_style else ""
    if isinstance(found, yaml.MappingNode):
        pairs = [_node(each) for pair in found.value for each in pair]
        return Node("mapping", start, end, style, inside=tuple(pairs))
    return Node("list", start, end, style, inside=tuple(_node(each) for each in found.value))
