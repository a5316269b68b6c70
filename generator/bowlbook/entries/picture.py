"""Pictures of the house's own, and films that stand elsewhere: what is seen, and who may see it."""

import re
from collections.abc import Iterator
from typing import Annotated, Any

from bowlbook.entries.amounts import whole
from bowlbook.entries.entry import Part, Reads, said
from bowlbook.entries.entry_id import LONGEST_PICTURE_NAME, PICTURE_NAME
from bowlbook.entries.words import Name, Sentence, YesNo
from bowlbook.reading.refusal import Refusal
from bowlbook.reading.source import Loc

LENGTH = r"([0-9]{1,2}:)?[0-9]{1,2}:[0-5][0-9]"
LINK = r'https://[^\s<>"]+'


def _picture_file(text: str) -> str:
    if not PICTURE_NAME.fullmatch(text) or len(text) > LONGEST_PICTURE_NAME:
        raise Refusal(
            "bad-file-name",
            "This is no picture's name: lower-case letters, digits and hyphens, then .jpg, .png or .webp.",
            "Write the name of a file in the book's folder pictures, as back-section-in-foil.jpg.",
        )
    return text


def _length(text: str) -> str:
    if not re.fullmatch(LENGTH, text):
        raise Refusal(
            "bad-amount", "This is not the length of a film.", "Write minutes and seconds, as 2:30."
        )
    return text


def _link(text: str) -> str:
    if not re.fullmatch(LINK, text) or len(text) > 400:
        raise Refusal("bad-link", "This is not an address on the web.", "Write it whole, from https:// on.")
    return text


_FILE_SCHEMA = {"pattern": f"^{PICTURE_NAME.pattern}$", "maxLength": LONGEST_PICTURE_NAME}
PictureFile = Annotated[str, Reads(_picture_file, _FILE_SCHEMA)]
FilmLength = Annotated[str, Reads(_length, {"pattern": f"^{LENGTH}$"})]
FilmLink = Annotated[str, Reads(_link, {"pattern": f"^{LINK}$", "maxLength": 400})]


class Picture(Part):
    """A picture of the house's own, from the book's folder ``pictures``.

    The site shows smaller copies without the place and camera data that are stored in the file.
    """

    file: PictureFile = said("Its file in recipes/pictures.", public=True)
    alt: Sentence = said("What is seen on it, for who cannot see it.", public=True)
    caption: Sentence | None = said("What to look at, shown under it.", public=True, default=None)
    person: YesNo = said(
        "yes: somebody can be recognised, by a face, a tattoo or a name. Hair alone: no.", public=True
    )
    consent: YesNo | None = said(
        "yes: that person agreed, in writing, that the team sees it. Keep the paper elsewhere.",
        public=True,
        default=None,
    )
    public: YesNo | None = said(
        "yes: the public copy shows it too. A person must have agreed to that as well.",
        public=True,
        default=None,
    )

    @property
    def is_public(self) -> bool:
        """Whether a copy of the book for the public has it."""
        return bool(self.public)


class TechniquePicture(Picture):
    """A picture of a technique or of one of its steps."""

    step: Annotated[int, whole(1, 100, "as the number of a step")] | None = said(
        "The number of the step that it shows. Left out: the technique as a whole.", public=True, default=None
    )


class Film(Picture):
    """A film that stands elsewhere: a link beside a still picture. Nothing of it is loaded into the site."""

    link: FilmLink = said("Its address on the web.", public=True)
    title: Name = said("What it shows.", public=True)
    length: FilmLength = said("How long it is, as 2:30.", public=True)


def pictures_in(entry: Any) -> Iterator[tuple[Loc, Picture]]:
    """Every picture that an entry names, stills of films too, with the way to it in the entry's file."""
    for field in ("pictures", "films"):
        for index, picture in enumerate(getattr(entry, field, ())):
            yield (field, index), picture
