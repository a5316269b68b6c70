"""Members of a list as the bits of one number, and a small number for each of them at once.

A mask has bit n for the n-th member. A tally holds one whole number a member in masks, lowest digit first:
bit n of its k-th mask is bit k of the n-th member's number. So that one operation serves a whole book.
"""

from collections.abc import Hashable, Iterable, Iterator, Sequence
from functools import reduce
from itertools import zip_longest
from operator import or_
from typing import TypeVar

Tally = list[int]
Member = TypeVar("Member", bound=Hashable)


def mask_of(places: Iterable[int], count: int) -> int:
    """The mask of some places among ``count`` members, in time that grows with the members only."""
    # Setting bits of one long number would copy it for each place.
    found = bytearray(count // 8 + 1)
    for place in places:
        found[place >> 3] |= 1 << (place & 7)
    return int.from_bytes(found, "little")


def masks_of(labels: Sequence[Member]) -> dict[Member, int]:
    """For each label the members that carry it, in the order in which labels come."""
    places: dict[Member, list[int]] = {}
    for place, label in enumerate(labels):
        places.setdefault(label, []).append(place)
    return {label: mask_of(own, len(labels)) for label, own in places.items()}


def any_of(masks: Iterable[int]) -> int:
    """The members of at least one mask."""
    return reduce(or_, masks, 0)


def tally_sum(one: Tally, other: Tally) -> Tally:
    """The sum of each member's two numbers, digit by digit with carry, as a ripple adder does."""
    found, carry = [], 0
    for left, right in zip_longest(one, other, fillvalue=0):
        either = left ^ right
        found.append(either ^ carry)
        carry = left & right | either & carry
    return [*found, carry] if carry else found


def tally_of(masks: Iterable[int]) -> Tally:
    """For each member, how many of the masks hold it."""
    return reduce(tally_sum, ([mask] for mask in masks), [])


def by_number(members: int, digits: Sequence[int]) -> Iterator[int]:
    """The places of the members, those with the lowest number first, ties by place.

    ``digits``: the masks of a number for each member, the highest digit first. By halving: those without the
    highest digit come before those with it, and so on. Lazy: nothing is computed before it is requested.
    """
    waiting = [(members, 0)]
    while waiting:
        some, digit = waiting.pop()
        if not some:
            continue
        if digit < len(digits):
            waiting += [(some & digits[digit], digit + 1), (some & ~digits[digit], digit + 1)]
        else:
            yield from places_of(some)


def places_of(members: int) -> Iterator[int]:
    """The places in a mask, lowest first."""
    while members:
        lowest = members & -members
        yield lowest.bit_length() - 1
        members ^= lowest
