"""What an entry's id is: the name of its file, and how other entries name it."""

import re

ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
LONGEST_ID = 60
PICTURE_ENDINGS = ("jpg", "jpeg", "png", "webp")
PICTURE_NAME = re.compile(rf"{ID.pattern}\.(?:{'|'.join(PICTURE_ENDINGS)})")
"""What a picture's file is called: a name that is a file on every system."""
LONGEST_PICTURE_NAME = LONGEST_ID + len(".jpeg")


def id_from(name: str) -> str:
    """An id made of a name: its letters without accents, in small letters; empty where none are left."""
    import unicodedata

    plain = unicodedata.normalize("NFKD", name.replace("ß", "ss")).encode("ascii", "ignore").decode().lower()
    return re.sub("[^a-z0-9]+", "-", plain).strip("-")[:LONGEST_ID].strip("-")
