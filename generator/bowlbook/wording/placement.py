"""What a drawing of a placement shows, in the words of the floor: its caption and its text alternative."""

from fractions import Fraction

from bowlbook.entries.drawn import Drawn
from bowlbook.reading.amount import plain
from bowlbook.wording.listing import both

COUNTED = ("", "one", "two", "three")
TIMES = ("", "once", "twice", "three times")
SHARES = {Fraction(25): "a quarter", Fraction(50): "half", Fraction(75): "three quarters"}
COMBED_TO = {
    "forward": "forward, to the face",
    "back": "back, away from the face",
    "up": "up, to the crown",
    "down": "down, to the nape",
}
FOLDED_TO = {
    "forward": "forward, to the face",
    "back": "back, away from the face",
    "up": "up, from the ends to the root",
    "down": "down, from the root to the ends",
}


def combed_share(percent: Fraction) -> str:
    """The share of a section that is backcombed, in words where there is a word for it."""
    return SHARES.get(percent, f"{plain(percent)} %")


def placement_words(drawn: Drawn) -> str:
    """The whole drawing in one or two sentences."""
    return _WORDS[drawn.shows](drawn)


def _weaves(drawn: Drawn) -> str:
    if drawn.at_back == drawn.at_front:
        return f"Weaves: {drawn.at_back} from the back to the front. The hair between them stays out."
    sizes = f"{drawn.at_back} at the back, {drawn.at_front} at the front"
    return f"Weaves: {sizes}. The hair between them stays out."


def _bricks(drawn: Drawn) -> str:
    rows = f"{'a row' if len(drawn.rows) == 1 else 'rows'} of {both([str(each) for each in drawn.rows])}"
    return (
        f"Triangles at the back of the head, from the nape up in {rows}, points up. "
        "They are laid like bricks: each row half a base along from the one below."
    )


def _painted(drawn: Drawn) -> str:
    points = "one point" if drawn.points == 1 else f"{COUNTED[drawn.points or 0]} points"
    return f"The surface painted: lightener begins thin in {points} and gets full at the ends."


def _two_foils(drawn: Drawn) -> str:
    above, below = (combed_share(each or Fraction()) for each in (drawn.backcomb, drawn.backcomb_below))
    return (
        f"A triangle split into two foils. Upper half: {above} combed back, painted from there down. "
        f"Lower half: {below} combed back, only the ends in lightener."
    )


def _backcombing(drawn: Drawn) -> str:
    share = combed_share(drawn.backcomb or Fraction())
    return f"The section with {share} of its hair combed back to a cushion at the root; the rest hangs."


def _over(drawn: Drawn) -> str:
    return (
        f"The section combed {COMBED_TO[drawn.direction or 'up']}, out of its natural fall, "
        "and held there. Dashed: straight out from the head."
    )


def _folding(drawn: Drawn) -> str:
    times = TIMES[drawn.folds or 0]
    return f"The foil folded {times}, {FOLDED_TO[drawn.direction or 'up']}."


_WORDS = {
    "slice": lambda _: "A slice: all hair between two straight partings, thin, with nothing left out.",
    "weaves": _weaves,
    "brick-laid triangles": _bricks,
    "painted surface": _painted,
    "pocket of depth": lambda _: (
        "A section from the side: lightener on its surface, the hair beneath left dark as a pocket of depth."
    ),
    "tipped ends": lambda _: "The ends tipped: lightener on the last of each strand only.",
    "triangle in two foils": _two_foils,
    "backcombing": _backcombing,
    "over-direction": _over,
    "folding": _folding,
}
