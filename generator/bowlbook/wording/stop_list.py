"""The short list "Stop if …" that is read with every head before any figure, in plain words."""

from collections.abc import Iterable, Iterator, Sequence

from bowlbook.figures.head import PLACES, VOLUME, WEEKS, bits_of, values_of
from bowlbook.figures.stop import STOP, Stop
from bowlbook.wording.reason import phrase

StopRow = tuple[str, str, str]
"""A facet, one of its values, and the words to tap."""

STOP_LIST: tuple[StopRow, ...] = (
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
    ("wearing", "extensions", "extensions or braids in"),
    ("heat", "yes", "heat is to go on it"),
)
"""Facet, value, words: every usual stop that one thing about the person or the hair's past decides."""

HOUSE_WORDS = {
    ("history", "previously coloured"): "coloured before",
    ("history", "pool water"): "pool water in it",
    ("condition", "dry"): "hair is dry",
}
"""Words for what only a house stops; of any other value those of a sentence."""
OVER_VOLUME = "over {} volume is asked for"
ANY_VOLUME = "any developer is asked for"
OF_THE_PAST = ("condition", "history", "wearing", "person", "heat")
"""Facets whose values are in the list wherever a stop names them. Those of any other facet are in it where
that alone stops a head; else they are tapped as hair."""


def stop_list_of(stops: Iterable[Stop], volumes: Sequence[int]) -> tuple[StopRow, ...]:
    """The usual list, then what only this house stops, each value once.

    ``volumes``: what can be tapped as a wish, lowest first. Levels are not in it: they are tapped as hair.
    """
    rows = {row[:2]: row for row in STOP_LIST}
    for stop in stops:
        if stop.effect == STOP and not stop.standing.startswith("usual"):
            for row in _rows(stop, volumes):
                rows.setdefault(row[:2], row)
    return tuple(rows.values())


def _rows(stop: Stop, volumes: Sequence[int]) -> Iterator[StopRow]:
    # Weeks only narrow a history, which is in the list by its own words.
    named = [place for place, bits in enumerate(stop.when) if bits and place != WEEKS]
    for place in named:
        name, values = PLACES[place], values_of(PLACES[place], stop.when[place])
        if len(named) > 1 and name not in OF_THE_PAST:
            continue
        if place == VOLUME:
            yield from _volume_row(values, volumes)
        else:
            for value in values:
                if isinstance(value, str):
                    words = HOUSE_WORDS.get((name, value)) or phrase(name, bits_of(name, (value,)))
                    yield name, value, words


def _volume_row(stopped: tuple[int | str, ...], volumes: Sequence[int]) -> Iterator[StopRow]:
    """The first volume to tap that is stopped, under the words "over" the one below it."""
    for place, volume in enumerate(volumes):
        if volume in stopped:
            words = OVER_VOLUME.format(volumes[place - 1]) if place else ANY_VOLUME
            yield "volume", str(volume), words
            return


NARROWED = {"history": "To be sure: was it ever coloured? Pool water in it?", "condition": "Is the hair dry?"}
"""What is left to ask of a facet once the list was answered."""
