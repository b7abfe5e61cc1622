"""Photographs for tests, as a phone would send them: with place, time and device written in."""

import io

from PIL import Image, PngImagePlugin
from PIL.ExifTags import IFD, Base

SECRETS = (b"Pocket Phone 9", b"48 deg 12", b"2027:03:02 08:15:00", b"at the workshop")
"""What a test looks for in a stored file: nothing of it may be there."""


def _picture(width_px: int, height_px: int) -> Image.Image:
    """A picture whose upper left quarter is blue, the rest a falling grey."""
    image = Image.linear_gradient("L").resize((width_px, height_px)).convert("RGB")
    image.paste((0, 0, 255), (0, 0, width_px // 2, height_px // 2))
    return image


def jpeg(
    width_px: int = 160, height_px: int = 120, *, turned: int = 1, progressive: bool = False
) -> bytes:
    """A JPEG that tells where it was taken, by what, when, with a comment and a tail behind."""
    exif = Image.Exif()
    exif[Base.Make] = SECRETS[0].decode()
    exif[Base.DateTime] = SECRETS[2].decode()
    exif[Base.Orientation] = turned
    exif.get_ifd(IFD.GPSInfo)[29] = SECRETS[1].decode()
    out = io.BytesIO()
    _picture(width_px, height_px).save(
        out,
        "JPEG",
        exif=exif,
        comment=SECRETS[3],
        xmp=b"<x:xmpmeta>" + SECRETS[1] + b"</x:xmpmeta>",
        progressive=progressive,
    )
    return out.getvalue() + SECRETS[3]


def png(width_px: int = 160, height_px: int = 120, *, mode: str = "RGB") -> bytes:
    """A PNG with Exif, texts plain and packed, and a tail behind."""
    exif = Image.Exif()
    exif[Base.Make] = SECRETS[0].decode()
    told = PngImagePlugin.PngInfo()
    told.add_text("Comment", SECRETS[3].decode())
    told.add_text("Place", SECRETS[1].decode(), zip=False)
    told.add_itxt("Taken", SECRETS[2].decode())
    out = io.BytesIO()
    _picture(width_px, height_px).convert(mode).save(out, "PNG", pnginfo=told, exif=exif)
    return out.getvalue() + SECRETS[3]
