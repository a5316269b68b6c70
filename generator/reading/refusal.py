"""What a value is refused with: a code, a message and the mend, not yet tied to a place."""


class Refusal(ValueError):
    """Raised by everything that reads one value. The caller knows the place and adds it.

    ``code`` is a documented finding code; ``message`` and ``mend`` are sentences without the place. ``way``:
    where in the value, if it is about several values together.
    """

    def __init__(self, code: str, message: str, mend: str, way: tuple[str | int, ...] = ()) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.mend = mend
        self.way = way
