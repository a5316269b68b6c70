"""A name as it is compared, of a product, a supplier or a column."""

import unicodedata


def bare_name(text: str) -> str:
    """A name without regard to case, the form of accents and wide letters (NFKC), and spaces."""
    return " ".join(unicodedata.normalize("NFKC", text).casefold().split())
