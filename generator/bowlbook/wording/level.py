"""The natural levels in words, as colourists say them: common practice, no published source."""

LEVEL_WORDS = (
    "black",
    "nearly black",
    "dark brown",
    "brown",
    "light brown",
    "dark blonde",
    "blonde",
    "light blonde",
    "pale blonde",
    "palest blonde",
)
"""From level 1 to level 10."""
