"""What a value is refused with: a code, a message and the mend, not yet tied to a place."""


class Refusal(ValueError):
    """Raised by everything that reads one value. The caller knows the place and adds it.

    ``code`` is a documented finding code; ``message`` and ``mend`` are sentences without the place. ``way``:
    where in the value, if it is about several values together. ``unquoted``: message and mend without a word
    of the value, for a private one; given where the two repeat any of it. ``at``: line and column, counting
    from 1, where a whole file is refused for one place in it.
    """

    def __init__(
        self,
        code: str,
        message: str,
        mend: str,
        way: tuple[str | int, ...] = (),
        *,
        unquoted: tuple[str, str] | None = None,
        at: tuple[int, int] = (1, 1),
    ) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.mend = mend
        self.way = way
        self.unquoted = unquoted or (message, mend)
        self.at = at
