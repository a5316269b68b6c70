"""Photographs as a phone stores them, made of noise and colour: with a place, a camera's name and a profile.

Nobody and no hair is on them. Exif tags: CIPA DC-008 (Exif 2.32), table 4 and the GPS table, from memory.
"""

import io
import random
from pathlib import Path
from typing import Any

from PIL import Image, ImageCms

CAMERA, PLACE = b"Invented camera 3000", (38.0, 43.0, 12.5)
MAKE, MODEL, ORIENTATION, GPS = 0x010F, 0x0110, 0x0112, 0x8825
ON_ITS_SIDE = 6
"""Stored lying, shown turned by a quarter."""


def photograph(seed: int = 1, size: tuple[int, int] = (2200, 1650), *, orientation: int = 1) -> bytes:
    """A JPEG of this size as it is stored."""
    draw = random.Random(seed)
    small = Image.new("RGB", (40, 30))
    small.putdata([tuple(draw.randrange(60, 220) for _ in "rgb") for _ in range(40 * 30)])
    picture = small.resize(size)
    exif = Image.Exif()
    exif[MAKE], exif[MODEL], exif[ORIENTATION] = CAMERA.decode(), CAMERA.decode(), orientation
    exif.get_ifd(GPS).update({1: "N", 2: PLACE, 3: "W", 4: PLACE})
    out = io.BytesIO()
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    picture.save(out, "JPEG", quality=95, exif=exif, icc_profile=profile, comment=b"by the client Maria")
    return out.getvalue()


def write_photograph(recipes: Path, name: str, **how: Any) -> Path:
    """Write one into a book's folder of pictures."""
    path = recipes / "pictures" / name
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(photograph(**how))
    return path
