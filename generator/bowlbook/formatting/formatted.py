"""An entry's text in the one order and style, or the reason why it is left as it is.

What is written is read again before anybody gets it: the same data, the same comments, no other finding.
"""

from bowlbook.entries.validate import known_keys, private_keys
from bowlbook.formatting.order import class_of, product_kind, put_in_order
from bowlbook.formatting.read_tree import tree_of
from bowlbook.formatting.write_tree import write_tree
from bowlbook.reading.document import read_text
from bowlbook.reading.finding import Finding
from bowlbook.reading.place import Place
from bowlbook.reading.source import Source


def formatted(text: str, kind: str, shown_as: str) -> tuple[str, list[Finding]]:
    """The text of an entry of ``kind`` in order and style.

    Where it cannot be read, or anything would be lost, the text as it is, with the findings that say why.
    """
    source, findings = _read(text, shown_as)
    if findings or source.data is None:
        return text, findings
    try:
        tree = tree_of(text)
        before = tree.comments()
        put_in_order(tree.top, class_of(kind, product_kind(tree.top)))
        made = write_tree(tree)
        again, wrong = _read(made, shown_as)
        same = not wrong and again.data == source.data and tree_of(made).comments() == before
    except ValueError:
        same = False
    if same:
        return made, []
    message = "This file cannot be formatted without losing something; it is left as it is."
    mend = "Put comments on lines of their own, outside brackets, and begin texts behind | on the next line."
    return text, [source.finding_at(Place(shown_as, 1, 1), "not-formatted", message, mend)]


def _read(text: str, shown_as: str) -> tuple[Source, list[Finding]]:
    return read_text(text, shown_as, private_keys(), known_keys())
