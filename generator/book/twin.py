"""Two processes that share one work, where that can be done without harm: the second is a fork of the first.

Both run the same function and tell each other, in bytes, what the other need not work out itself.
"""

import os
import threading
from collections.abc import Callable
from contextlib import suppress
from typing import TypeVar

T = TypeVar("T")

LENGTH = 8
"""Bytes of a message's length."""
PIECE = 1 << 20
"""Bytes that are read at once."""


def processes_at_hand() -> int:
    """How many processes may share a work: 1 where a fork would be unsafe (other threads) or is not known.

    BOWLBOOK_PROCESSES sets another number.
    """
    wanted = os.environ.get("BOWLBOOK_PROCESSES", "")
    if not hasattr(os, "fork") or threading.active_count() > 1:
        return 1
    if wanted.isdecimal() and int(wanted) > 0:
        return int(wanted)
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else 1


class Gone(Exception):
    """The first process has ended, and whatever the second does is of no more use."""


class Twin:
    """The other of the two processes, as either of them sees it. ``second``: whether this one is the fork.

    What the second cannot say, because it has ended, is None to the first, which then does all by itself. The
    second never outlives the first: it ends where it would tell it something, or be told.
    """

    def __init__(self, incoming: int, outgoing: int, *, second: bool) -> None:
        self._incoming = incoming
        self._outgoing = outgoing
        self.second = second

    def tell(self, message: bytes) -> None:
        """Send a message. Raises `Gone` in the second process."""
        left = memoryview(len(message).to_bytes(LENGTH) + message)
        try:
            while left:
                left = left[os.write(self._outgoing, left) :]
        except OSError as error:
            if self.second:
                raise Gone from error

    def told(self) -> bytes | None:
        """The other's next message, waited for. Raises `Gone` in the second process."""
        head = self._read(LENGTH)
        message = None if head is None else self._read(int.from_bytes(head))
        if message is None and self.second:
            raise Gone
        return message

    def exchange(self, message: bytes) -> bytes | None:
        """Tell and be told. The second tells first, so that neither waits for ever with full hands."""
        if self.second:
            self.tell(message)
            return self.told()
        answer = self.told()
        self.tell(message)
        return answer

    def _read(self, length: int) -> bytes | None:
        found = bytearray()
        while len(found) < length:
            piece = os.read(self._incoming, min(length - len(found), PIECE))
            if not piece:
                return None
            found += piece
        return bytes(found)

    def close(self) -> None:
        """Say and hear no more."""
        for handle in (self._incoming, self._outgoing):
            with suppress(OSError):
                os.close(handle)


def in_two(work: Callable[[Twin], T]) -> T:
    """What ``work`` gives in the first of two processes that both run it, once the second has ended too.

    What it gives in the second, and what goes wrong there, is lost: a fault is one of the first as well,
    which then has to do everything. Where no second can be had, it is as if that had ended at once.
    """
    second_reads, first_writes = os.pipe()
    first_reads, second_writes = os.pipe()
    try:
        child = os.fork()
    except OSError:
        child = None
    if child == 0:
        status = 1
        try:
            os.close(first_reads)
            os.close(first_writes)
            work(Twin(second_reads, second_writes, second=True))
            status = 0
        finally:
            os._exit(status)
    os.close(second_reads)
    os.close(second_writes)
    twin = Twin(first_reads, first_writes, second=False)
    try:
        return work(twin)
    finally:
        twin.close()
        if child is not None:
            wait_for(child)


def wait_for(child: int) -> None:
    """Wait until a fork has ended. A program that was begun to ignore that finds nothing to wait for."""
    with suppress(ChildProcessError):
        os.waitpid(child, 0)
