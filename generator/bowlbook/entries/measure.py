"""A house's own measures, such as the scoop in a powder tub: an aid beside the scale, never in its place."""

from collections.abc import Sequence
from typing import Annotated

from bowlbook.entries.entry import Part, Reads, said
from bowlbook.entries.words import Name, ProductId
from bowlbook.reading.amount import Count, Mass, Volume
from bowlbook.reading.read_amount import read_net
from bowlbook.reading.refusal import Refusal


def read_measure(text: str) -> Mass | Volume:
    """What a measure holds: a weight or a volume. Raises `Refusal`."""
    held = read_net(text)
    if isinstance(held, Count):
        raise Refusal("wrong-unit", "A measure holds a weight or a volume.", "Write it as 18 g or 5 mL.")
    return held


class Measure(Part):
    """One measure. A scoop of one powder weighs what a scoop of another does not: so it says of what."""

    name: Name = said("What the floor calls one of it, as scoop.", public=True)
    plural: Name | None = said("Several of it. Left out, the name with an s.", public=True, default=None)
    holds: Annotated[Mass | Volume, Reads(read_measure, {"examples": ["18 g", "5 mL"]})] = said(
        "What it holds, struck off level: a weight, or a volume of what has a density.", public=True
    )
    of: tuple[ProductId, ...] = said("The products that were weighed in it.", public=True)

    @property
    def forms(self) -> tuple[str, str]:
        """One of it, and several."""
        return self.name, self.plural or f"{self.name}s"


Measures = Sequence[Measure]
