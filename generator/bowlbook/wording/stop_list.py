"""The short list "Stop if …" that is read with every head before any figure, in plain words."""

STOP_LIST = (
    ("person", "under 16", "under 16"),
    ("person", "sore scalp", "sore or broken scalp"),
    ("person", "reaction to lightener", "reacted to lightener before"),
    ("person", "reaction to colour", "reacted to colour or a black henna tattoo"),
    ("person", "pregnant or nursing", "pregnant or nursing"),
    ("person", "medicine or illness", "medicine or illness"),
    ("condition", "breaking", "hair breaks"),
    ("condition", "stretchy", "wet hair stretches and stays long"),
    ("history", "henna", "henna or plant colour"),
    ("history", "metallic dye", "metallic dye or grey restorer"),
    ("history", "previously lightened", "lightened before"),
    ("history", "permed", "permed"),
    ("history", "relaxed", "relaxed"),
    ("history", "smoothed", "smoothed"),
    ("wearing", "extensions", "extensions in"),
    ("heat", "yes", "heat is to go on it"),
)
"""Facet, value, words: every usual stop that one thing about the person or the hair's past decides."""

NARROWED = {
    "history": "To be sure: was it ever coloured? Pool water in it?",
    "condition": "Is the hair dry?",
}
"""What is left to ask of a facet once the list was answered."""
