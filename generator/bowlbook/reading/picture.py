"""What a picture's file is: looked at once, so that everything behind it can rely on it."""

import hashlib
import io
from typing import Any, NamedTuple

from bowlbook.reading.finding import Finding
from bowlbook.reading.guard import read_bytes
from bowlbook.reading.place import Place
from bowlbook.reading.refusal import Refusal

LARGEST = 25 * 1024 * 1024
"""Bytes of a picture's file: those of phones of today have 2 to 12 MB."""
MOST_PIXELS = 80_000_000
"""A file of few bytes can unpack to very many; a phone of today takes 50 million."""
FORMATS = ("JPEG", "PNG", "WEBP")


class SeenPicture(NamedTuple):
    """A picture as it was found: its file, the SHA-256 of its bytes, and its size in pixels, held upright."""

    path: str
    digest: str
    width: int
    height: int

    def warning(self, message: str, mend: str) -> Finding:
        """A check's warning at the file; the code is added by who runs the check."""
        return Finding(Place(self.path, 1, 1), "", message, mend, severity="warning")


def look_at(path: str) -> SeenPicture:
    """Look at a picture's file. Raises `Refusal` for what is no picture, is damaged or is too large."""
    content = read_bytes(path, LARGEST)
    with opened(content) as picture:
        width, height = picture.size
        turned = picture.getexif().get(ORIENTATION, 1) >= FIRST_ON_ITS_SIDE
    return SeenPicture(
        path, hashlib.sha256(content).hexdigest(), *((height, width) if turned else (width, height))
    )


ORIENTATION, FIRST_ON_ITS_SIDE = 0x0112, 5
"""The Exif tag that says how a picture is held, and its first value on its side (CIPA DC-008)."""


def opened(content: bytes) -> Any:
    """A picture of Pillow's from a file's bytes, unpacked and therefore whole. Raises `Refusal`."""
    try:
        from PIL import Image
    except ImportError as error:
        message = "Pictures need the library Pillow, which is not installed here."
        raise Refusal("bad-picture", message, 'Install it: pip install "bowlbook[pictures]".') from error
    try:
        picture = Image.open(io.BytesIO(content), formats=FORMATS)
        if picture.width * picture.height > MOST_PIXELS:
            millions = MOST_PIXELS // 1_000_000
            message = f"This picture has more than {millions} million pixels."
            raise Refusal("bad-picture", message, "Save it smaller; the site shows at most 1600 across.")
        picture.load()
    except Refusal:
        raise
    except Exception as error:  # Pillow raises many kinds for damaged files
        message = "This is no picture that can be read: JPEG, PNG or WebP."
        raise Refusal("bad-picture", message, "Save it again as .jpg.") from error
    return picture
