"""Photographs as they are uploaded: what they really are, and the same without what tells tales.

A phone writes into a picture where and when it was taken, by which device, often with a second
picture behind the end. Nothing of that is kept: only the parts that the picture is drawn from, and
the way up. The picture itself is not coded anew. Sources of the layouts: JPEG, ITU-T T.81 annex B;
Exif, CIPA DC-008 (from memory); PNG, ISO/IEC 15948 (W3C PNG, third edition).
"""

import struct
import zlib
from dataclasses import dataclass

from reelwright.core.errors import ShopRuleBroken

LARGEST_BYTES = 8_000_000
LEAST_SIDE_PX = 64
MOST_PIXELS = 40_000_000
"""A picture unfolds in memory where it is shown: more than this is refused whatever it weighs."""

ACCEPTED = (
    f"a JPEG or PNG picture of at most {LARGEST_BYTES // 10**6} MB and {MOST_PIXELS // 10**6} "
    f"million pixels, {LEAST_SIDE_PX} or more to a side"
)

_PNG_SIGNATURE = b"\x89PNG\r\n\x1a\n"
_PNG_KEPT = frozenset(b"IHDR PLTE IDAT IEND tRNS gAMA cHRM sRGB iCCP sBIT pHYS bKGD cICP".split())
_PNG_CHANNELS = {0: 1, 2: 3, 3: 1, 4: 2, 6: 4}
_PNG_DEPTHS = {0: (1, 2, 4, 8, 16), 2: (8, 16), 3: (1, 2, 4, 8), 4: (8, 16), 6: (8, 16)}

_SOF_READ = frozenset([0xC0, 0xC1, 0xC2])
_SOF_OTHERS = frozenset(range(0xC3, 0xD0)) - {0xC4, 0xC8, 0xCC}
# What applications write and colour needs: how it begins, and how much of it is wanted.
_JPEG_KEPT = {0xE0: (b"JFIF\0", 12), 0xE2: (b"ICC_PROFILE\0", None), 0xEE: (b"Adobe", 12)}
_ORIENTATION_TAG = 0x0112


@dataclass(frozen=True, kw_only=True)
class CleanPhotograph:
    """A picture that tells only what it shows. ``kind``: "jpeg" or "png".

    ``width_px``, ``height_px``: as it lies in the file; ``turned``: the way up that a viewer must
    give it, 1 to 8 as Exif counts them.
    """

    kind: str
    content: bytes
    width_px: int
    height_px: int
    turned: int


def read_photograph(content: bytes) -> CleanPhotograph:
    """Return the picture without all that it need not tell, judged by its bytes, not its name.

    Raises ShopRuleBroken ``photograph_large``, ``photograph_kind``, ``photograph_broken``,
    ``photograph_size``, each with what is accepted.
    """
    if len(content) > LARGEST_BYTES:
        raise _refused("photograph_large", f"{len(content) / 1e6:.1f} MB is too large.")
    if content.startswith(b"\xff\xd8\xff"):
        found = _clean_jpeg(content)
    elif content.startswith(_PNG_SIGNATURE):
        found = _clean_png(content)
    else:
        raise _refused("photograph_kind", "This is neither a JPEG nor a PNG picture.")
    return found


def _refused(code: str, told: str) -> ShopRuleBroken:
    return ShopRuleBroken(code, f"{told} Accepted: {ACCEPTED}.", field="file")


def _broken() -> ShopRuleBroken:
    return _refused("photograph_broken", "The picture is broken off or damaged.")


def _require_size(width_px: int, height_px: int) -> None:
    if min(width_px, height_px) < LEAST_SIDE_PX or width_px * height_px > MOST_PIXELS:
        raise _refused("photograph_size", f"{width_px} × {height_px} pixels cannot be used.")


# JPEG ------------------------------------------------------------------------------------------


def _clean_jpeg(content: bytes) -> CleanPhotograph:
    kept: list[bytes] = []
    size: tuple[int, int] | None = None
    turned, at, scans = 1, 2, 0
    while True:
        marker, at = _marker(content, at)
        if marker == 0xD9:
            break
        if marker == 0x01 or 0xD0 <= marker <= 0xD8:
            raise _broken()
        (length,) = struct.unpack(">H", _slice(content, at, 2))
        if length < 2:
            raise _broken()
        body = _slice(content, at + 2, length - 2)
        at += length
        if marker in _SOF_OTHERS:
            raise _refused("photograph_kind", "This kind of JPEG is not shown by every browser.")
        if marker in _SOF_READ:
            size = _frame_size(body)
        if marker == 0xE1 and body.startswith(b"Exif\0\0"):
            turned = _orientation(body[6:])
        wanted = _wanted(marker, body)
        if wanted is not None:
            kept.append(_segment(marker, wanted))
        if marker == 0xDA:
            end = _scan_end(content, at)
            kept.append(content[at:end])
            at, scans = end, scans + 1
    if size is None or not scans:
        raise _broken()
    _require_size(*size)
    if turned != 1:
        # Behind the JFIF segment, which must come first where there is one.
        first = 1 if kept[0].startswith(b"\xff\xe0") else 0
        kept.insert(first, _segment(0xE1, _exif_of_orientation(turned)))
    return CleanPhotograph(
        kind="jpeg",
        content=b"".join((b"\xff\xd8", *kept, b"\xff\xd9")),
        width_px=size[0],
        height_px=size[1],
        turned=turned,
    )


def _marker(content: bytes, at: int) -> tuple[int, int]:
    if _slice(content, at, 1) != b"\xff":
        raise _broken()
    while _slice(content, at, 1) == b"\xff":
        at += 1
    return content[at], at + 1


def _slice(content: bytes, at: int, length: int) -> bytes:
    part = content[at : at + length]
    if len(part) != length:
        raise _broken()
    return part


def _segment(marker: int, body: bytes) -> bytes:
    return struct.pack(">BBH", 0xFF, marker, len(body) + 2) + body


def _wanted(marker: int, body: bytes) -> bytes | None:
    """Return what is kept of a segment: a list of what draws the picture, never of what may go.

    Raises ``photograph_broken`` where a table is longer or shorter than it says of itself.
    """
    if marker in _JPEG_KEPT:
        start, length = _JPEG_KEPT[marker]
        if not body.startswith(start):
            return None
        # A JFIF segment ends in a small picture of its own: none of 0 × 0 stands for it.
        return body[:length] + (b"\0\0" if marker == 0xE0 else b"")
    sizes = {0xDB: _quantizer_size, 0xC4: _huffman_size}
    if marker in sizes:
        at = 0
        while at < len(body):
            at += sizes[marker](body, at)
        exact = at == len(body)
    elif marker in _SOF_READ:
        exact = len(body) == 6 + 3 * body[5]
    elif marker == 0xDA:
        exact = bool(body) and len(body) == 4 + 2 * body[0]
    elif marker == 0xDD:
        exact = len(body) == 2
    else:
        return None
    if not exact:
        raise _broken()
    return body


def _quantizer_size(body: bytes, at: int) -> int:
    return 1 + (128 if body[at] >> 4 else 64)


def _huffman_size(body: bytes, at: int) -> int:
    return 17 + sum(_slice(body, at + 1, 16))


def _frame_size(body: bytes) -> tuple[int, int]:
    if len(body) < 6:
        raise _broken()
    precision, height_px, width_px, components = struct.unpack(">BHHB", body[:6])
    if precision != 8 or components not in (1, 3):
        raise _refused("photograph_kind", "Its colours are not those of a photograph.")
    return width_px, height_px


def _scan_end(content: bytes, at: int) -> int:
    """Where the coded picture ends: a marker that is neither a stuffed byte nor a restart."""
    while True:
        at = content.find(b"\xff", at)
        if at < 0 or at + 1 >= len(content):
            raise _broken()
        following = content[at + 1]
        if following not in (0x00, 0xFF) and not 0xD0 <= following <= 0xD7:
            return at
        at += 1 if following == 0xFF else 2


def _orientation(tiff: bytes) -> int:
    """Read the way up from an Exif block; 1, upright, where it cannot be read."""
    order = {b"II*\0": "<", b"MM\0*": ">"}.get(tiff[:4])
    if order is None or len(tiff) < 8:
        return 1
    (start,) = struct.unpack(f"{order}I", tiff[4:8])
    if start + 2 > len(tiff):
        return 1
    (count,) = struct.unpack(f"{order}H", tiff[start : start + 2])
    for place in range(count):
        entry = tiff[start + 2 + 12 * place : start + 14 + 12 * place]
        if len(entry) < 12:
            return 1
        tag, _kind, _count, value = struct.unpack(f"{order}HHIH", entry[:10])
        if tag == _ORIENTATION_TAG:
            return value if 1 <= value <= 8 else 1
    return 1


def _exif_of_orientation(turned: int) -> bytes:
    return b"Exif\0\0MM\0*" + struct.pack(">IHHHIHHI", 8, 1, _ORIENTATION_TAG, 3, 1, turned, 0, 0)


# PNG -------------------------------------------------------------------------------------------


def _clean_png(content: bytes) -> CleanPhotograph:
    kept = [_PNG_SIGNATURE]
    header: bytes | None = None
    picture: list[bytes] = []
    at = len(_PNG_SIGNATURE)
    kind = b""
    while kind != b"IEND":
        (length,) = struct.unpack(">I", _slice(content, at, 4))
        kind = _slice(content, at + 4, 4)
        body = _slice(content, at + 8, length)
        told = _slice(content, at + 8 + length, 4)
        if zlib.crc32(kind + body) != struct.unpack(">I", told)[0]:
            raise _broken()
        if (header is None) != (kind == b"IHDR"):
            raise _broken()
        if kind == b"IHDR":
            header = body
        elif kind == b"IDAT":
            picture.append(body)
        elif kind[:1].isupper() and kind not in _PNG_KEPT:
            raise _refused("photograph_kind", "This kind of PNG is not shown by every browser.")
        if kind in _PNG_KEPT:
            kept.append(content[at : at + 12 + length])
        at += 12 + length
    if header is None or len(header) != 13:
        raise _broken()
    width_px, height_px, depth, colour, packing, filtering, interlace = struct.unpack(
        ">IIBBBBB", header
    )
    if depth not in _PNG_DEPTHS.get(colour, ()) or packing or filtering or interlace > 1:
        raise _broken()
    _require_size(width_px, height_px)
    rows = _rows(width_px, height_px, interlace=bool(interlace))
    bits = depth * _PNG_CHANNELS[colour]
    expected = sum(count * (1 + (wide * bits + 7) // 8) for wide, count in rows)
    if _unpacked_size(picture, at_most=expected) != expected:
        raise _broken()
    return CleanPhotograph(
        kind="png", content=b"".join(kept), width_px=width_px, height_px=height_px, turned=1
    )


def _rows(width_px: int, height_px: int, *, interlace: bool) -> list[tuple[int, int]]:
    """Return (pixels in a row, rows) of each pass; Adam7 has seven."""
    if not interlace:
        return [(width_px, height_px)]
    passes = (
        (0, 0, 8, 8),
        (4, 0, 8, 8),
        (0, 4, 4, 8),
        (2, 0, 4, 4),
        (0, 2, 2, 4),
        (1, 0, 2, 2),
        (0, 1, 1, 2),
    )
    found = [
        (-(-(width_px - x) // across), -(-(height_px - y) // down)) for x, y, across, down in passes
    ]
    return [(wide, count) for wide, count in found if wide > 0 and count > 0]


def _unpacked_size(parts: list[bytes], *, at_most: int) -> int:
    """Return how many bytes the picture unpacks to; one too many ends the count."""
    unpacker = zlib.decompressobj()
    total = 0
    try:
        for part in parts:
            rest = part
            while rest and total <= at_most:
                total += len(unpacker.decompress(rest, 2**20))
                rest = unpacker.unconsumed_tail
        if not unpacker.eof and total <= at_most:
            total += len(unpacker.flush())
    except zlib.error:
        raise _broken() from None
    return total if unpacker.eof else -1
