"""Several words in one phrase: ``a, b or c``, ``a, b and c``."""


def either(words: tuple[str, ...]) -> str:
    """``a``, ``a or b``, ``a, b or c``."""
    return " or ".join(filter(None, (", ".join(words[:-1]), words[-1]))) if words else ""


def both(words: list[str]) -> str:
    """``a``, ``a and b``, ``a, b and c``."""
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1]))) if words else ""
