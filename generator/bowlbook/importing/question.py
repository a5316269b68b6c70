"""Questions that one answer settles for a whole column, or for the whole table, of however many cells."""

from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from bowlbook.importing.field_cell import Column
from bowlbook.importing.number import Unclear
from bowlbook.importing.said import DECIMAL, Said
from bowlbook.reading.bare_name import bare_name
from bowlbook.reading.finding import Finding, finding_of
from bowlbook.reading.place import Place
from bowlbook.reading.refusal import Refusal

EXAMPLES = 3
"""How many different cells a question quotes."""


class Asked(NamedTuple):
    """A cell that raised a question. ``shown``: what it says; empty where that is not to be repeated."""

    column: Column
    row: int
    shown: str
    unclear: Unclear


class Question(NamedTuple):
    """One question. ``asked``: the cells concerned, in order; all have the same possible answers."""

    asked: tuple[Asked, ...]

    @property
    def rows(self) -> list[int]:
        """The numbers of the rows, each once."""
        return sorted({each.row for each in self.asked})

    @property
    def answers(self) -> tuple[str, ...]:
        """What may be answered."""
        return self.asked[0].unclear.answers

    @property
    def text(self) -> str:
        """The columns, some of the cells, the rows where there are several, and what is asked."""
        headers = ", ".join(dict.fromkeys(each.column.header for each in self.asked))
        cells = [f'"{each}"' for each in dict.fromkeys(each.shown for each in self.asked) if each]
        more = ["…"] if len(cells) > EXAMPLES else []
        quoted = ", ".join(cells[:EXAMPLES] + more)
        rows = f"{len(self.rows)} rows from row {self.rows[0]}" if len(self.rows) > 1 else ""
        where = " in ".join(each for each in (quoted, rows) if each)
        return f"{headers}: {where}{': ' if where else ''}{self.asked[0].unclear.question}"

    def finding(self, path: Path) -> Finding:
        """The finding at the first of the cells, which says how to answer for all."""
        column, row, _, unclear = self.asked[0]
        answer = f"{self.setting}: {unclear.answers[0]}"
        if self.setting == "means":
            answer = f'means: {{"{column.header}": {unclear.answers[0]}}}'
        others = f" (or {', '.join(unclear.answers[1:])})" if unclear.answers[1:] else ""
        mend = f"{unclear.mend} For all of them: {answer}{others} in the file for --columns.".strip()
        found = finding_of(Refusal("unclear-cell", self.text, mend), Place(str(path), row, column.place + 1))
        return found._replace(severity="warning")

    @property
    def setting(self) -> str:
        """The setting of a table that an answer is: decimal, days, or means for one column."""
        return self.asked[0].unclear.setting

    def answered(self, said: Said, answer: str) -> Said:
        """What was said of a table, with this answer."""
        if self.setting == "means":
            return said._replace(means={**said.means, bare_name(self.asked[0].column.header): answer})
        if self.setting == "days":
            return said._replace(days=answer)
        return said._replace(decimal=DECIMAL[answer])


def questions_of(asked: Iterable[Asked]) -> list[Question]:
    """The cells by setting, and for means by column too; in the order of the columns."""
    found: dict[tuple[str, int], list[Asked]] = {}
    for each in asked:
        setting = each.unclear.setting
        found.setdefault((setting, each.column.place if setting == "means" else 0), []).append(each)
    questions = [Question(tuple(each)) for each in found.values()]
    return sorted(questions, key=lambda each: each.asked[0].column.place)
