"""What a logger is given, received while something runs."""

import logging
from collections.abc import Callable, Iterator
from contextlib import contextmanager


class _Listener(logging.Handler):
    """Passes on each record."""

    def __init__(self, level: int, receive: Callable[[logging.LogRecord], object]) -> None:
        super().__init__(level)
        self.receive = receive

    def emit(self, record: logging.LogRecord) -> None:
        self.receive(record)


@contextmanager
def listening(
    logger: logging.Logger, level: int, receive: Callable[[logging.LogRecord], object], *, alone: bool = True
) -> Iterator[None]:
    """Pass each record of a logger to ``receive``, from ``level`` up; where ``alone``, to nobody above it."""
    listener = _Listener(level, receive)
    logger.addHandler(listener)
    if alone:
        logger.propagate = False
    try:
        yield
    finally:
        logger.removeHandler(listener)
        if alone:
            logger.propagate = True
