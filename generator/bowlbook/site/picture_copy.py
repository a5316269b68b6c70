"""A copy of a picture: smaller, upright, in sRGB, and with no data but its pixels."""

import io
from typing import Any

from bowlbook.pages.picture import Copy

QUALITY = {"WEBP": {"quality": 78, "method": 4}, "JPEG": {"quality": 82, "optimize": True}}
"""How copies are written: hair keeps its single strands and its tone."""


def written(picture: Any, copy: Copy) -> bytes:
    """A picture of Pillow's as a copy in sRGB (IEC 61966-2-1), without place and camera data."""
    from PIL import Image, ImageOps

    profile = picture.info.get("icc_profile")
    upright: Any = ImageOps.exif_transpose(picture)
    upright = upright.convert("RGBA" if upright.has_transparency_data else "RGB")
    if profile:
        upright = _in_srgb(upright, profile)
    if copy.form == "JPEG" and upright.mode == "RGBA":
        ground = Image.new("RGB", upright.size, "white")
        ground.paste(upright, mask=upright.getchannel("A"))
        upright = ground
    small = upright.resize((copy.width, copy.height))
    small.info.clear()
    out = io.BytesIO()
    small.save(out, copy.form, **QUALITY[copy.form])
    return out.getvalue()


def _in_srgb(picture: Any, profile: bytes) -> Any:
    """The picture in sRGB: cameras that store more colours would give paler hair without."""
    from PIL import ImageCms

    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        if source.profile.xcolor_space.strip() != "RGB":
            return picture
        return ImageCms.profileToProfile(picture, source, ImageCms.createProfile("sRGB"))
    except (OSError, ImageCms.PyCMSError):  # a damaged profile: the colours are taken as they are
        return picture
