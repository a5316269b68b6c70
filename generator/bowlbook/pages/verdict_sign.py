"""The sign of each verdict, shown beside its word wherever a verdict is."""

SIGNS = {
    "go": "m7 20h24m-9-10 10 10-10 10",
    "with care": "m7 16h24m-8-9 9 9-9 9M6 34h28",
    "tone only": "M20 5c6 8 10 12 10 18a10 10 0 0 1-20 0c0-6 4-10 10-18Z",
    "more than one visit": "m5 20h9m-4-5 5 5-5 5M20 7v26m5-13h9m-4-5 5 5-5 5",
    "test first": "m14 5c-7 10 7 20 0 30M26 5c-7 10 7 20 0 30",
    "not today": "m5 12h30v5H5zm0 12h30v5H5z",
}
"""The sign of each verdict, as an outline in a square of 40."""
