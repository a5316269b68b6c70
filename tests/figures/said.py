"""Heads as they are said to ``bowlbook match``, as bit sets."""

from bowlbook.figures.head import DOMAINS, NO_LIFT, PLACES, VOLUMES, Head, head_with

SHORT = {"level": "natural_level", "to": "target_level"}


def head_from(words: dict[str, object]) -> Head:
    """The head of a mapping from options to values: one value, or a list of several."""
    said = {}
    for option, value in words.items():
        if (option, value) == ("lift", 0):
            said["wish"] = NO_LIFT
            continue
        name = SHORT.get(option, option)
        assert name in PLACES, name
        values = value if isinstance(value, list) else [value]
        said[name] = sum(1 << _place(name, each) for each in values)
    return head_with(**said)


def _place(name: str, value: object) -> int:
    if name == "weeks":
        return min(int(str(value)), len(DOMAINS[name]) - 1)
    if name == "volume":
        return next((n for n, volume in enumerate(VOLUMES) if volume >= int(str(value))), len(VOLUMES) - 1)
    if name == "heat":
        return 0
    return DOMAINS[name].index(value)  # type: ignore[arg-type]
