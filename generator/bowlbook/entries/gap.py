"""Gaps: the mark of a value still to be written, and the placeholder texts of earlier starts."""

from bowlbook.reading.refusal import Refusal

GAP = "???"
"""The mark of a gap, as ``bowlbook new`` writes it."""
LONGEST_START = 80
STARTS = frozenset(
    {
        GAP,
        "A line for the top of every page.",
        "Notes that never reach a public copy.",
        "Say how the head is sectioned.",
        "Say in a sentence what is in the chair.",
        "Say in a sentence what it does in the bowl.",
        "Say in a sentence what it gives.",
        "Say in a sentence what it is for.",
        "Say its size in words.",
        "Say what a learner can do afterwards.",
        "Say what happens first.",
        "Say what is done first.",
        "Say what is looked for, and when it is rinsed.",
        "Say what is to be watched with this mix, beside the usual cautions.",
        "Say what is to be watched, beside the usual cautions.",
        "Say what you would tell a colleague.",
        "Say where this bowl goes.",
        "Say whom it is for.",
        "Say why it is mixed so.",
        "Say why not.",
        "Say why this one.",
        "Say why.",
        "Then what comes next.",
        "Title and number of the text",
        "What the learners take home. No prices here.",
        "Your name",
    }
)
"""The mark, and the placeholder texts of earlier starts, word for word."""


def is_gap(text: str) -> bool:
    """Whether a text is a gap or an earlier start's placeholder."""
    return len(text) <= LONGEST_START and " ".join(text.split()) in STARTS


def not_filled_in() -> Refusal:
    """The refusal of a gap; the caller adds which field it is."""
    return Refusal("not-filled-in", "Not filled in yet.", "Write the value.")
