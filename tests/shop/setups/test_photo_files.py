"""Uploaded pictures: what they are is seen in their bytes, and what tells tales is left out."""

import io
import struct
import zlib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from PIL.ExifTags import IFD, Base

from reelwright.core.errors import ShopRuleBroken
from reelwright.shop.setups.photo_files import (
    ACCEPTED,
    LARGEST_BYTES,
    LEAST_SIDE_PX,
    read_photograph,
)
from tests.photographs import SECRETS, jpeg, png
from tests.shop.refusals import refused


def opened(content: bytes) -> Image.Image:
    """The picture as another program reads it."""
    image = Image.open(io.BytesIO(content))
    image.load()
    return image


@pytest.mark.parametrize("progressive", [False, True])
def test_a_jpeg_keeps_every_pixel_and_loses_place_time_device_and_tail(progressive: bool) -> None:
    """Another program sees the same pixels, no Exif, no comment, and none of the words."""
    before = jpeg(progressive=progressive)
    assert all(secret in before for secret in SECRETS)
    found = read_photograph(before)
    assert not any(secret in found.content for secret in SECRETS)
    after = opened(found.content)
    assert after.tobytes() == opened(before).tobytes()
    assert not after.getexif()
    assert "comment" not in after.info
    assert (found.kind, found.width_px, found.height_px, found.turned) == ("jpeg", 160, 120, 1)
    assert found.content.endswith(b"\xff\xd9")


@pytest.mark.parametrize("turned", range(2, 9))
def test_the_way_up_is_all_that_is_kept_of_the_exif_block(turned: int) -> None:
    """A picture held sideways stays the right way up, and its place is gone all the same."""
    found = read_photograph(jpeg(turned=turned))
    exif = opened(found.content).getexif()
    assert dict(exif) == {Base.Orientation: turned}
    assert not exif.get_ifd(IFD.GPSInfo)
    assert found.turned == turned
    assert not any(secret in found.content for secret in SECRETS)


@pytest.mark.parametrize("mode", ["RGB", "RGBA", "L", "P", "1", "I;16"])
def test_a_png_keeps_every_pixel_and_loses_its_texts(mode: str) -> None:
    """Colour, grey, palette, one bit and sixteen: the same pixels, and no text chunk."""
    before = png(mode=mode)
    found = read_photograph(before)
    after = opened(found.content)
    assert after.tobytes() == opened(before).tobytes()
    assert not after.getexif()
    assert not getattr(after, "text", {})
    assert not any(secret in found.content for secret in SECRETS)
    assert (found.kind, found.width_px, found.height_px) == ("png", 160, 120)


def chunk(kind: bytes, body: bytes) -> bytes:
    """One chunk of a PNG, whole."""
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def drawn_png(header: bytes, picture: bytes, *more: bytes) -> bytes:
    """A PNG put together by hand."""
    body = chunk(b"IHDR", header) + b"".join(more) + chunk(b"IDAT", zlib.compress(picture))
    return b"\x89PNG\r\n\x1a\n" + body + chunk(b"IEND", b"")


def test_an_interlaced_png_is_counted_by_its_seven_passes() -> None:
    """70 x 65 grey pixels in Adam7: the passes hold every pixel once, each row a byte more."""
    passes = ((0, 0, 8, 8), (4, 0, 8, 8), (0, 4, 4, 8), (2, 0, 4, 4), (0, 2, 2, 4), (1, 0, 2, 2))
    size, pixels = 0, 0
    for x, y, across, down in (*passes, (0, 1, 1, 2)):
        wide, high = len(range(x, 70, across)), len(range(y, 65, down))
        size, pixels = size + high * (1 + wide), pixels + wide * high
    assert pixels == 70 * 65
    header = struct.pack(">IIBBBBB", 70, 65, 8, 0, 0, 0, 1)
    whole = drawn_png(header, bytes(size))
    assert read_photograph(whole).width_px == 70
    assert opened(whole).size == (70, 65)
    with refused("photograph_broken"):
        read_photograph(drawn_png(header, bytes(size - 1)))


def test_what_is_no_picture_is_refused_whatever_it_is_called() -> None:
    """A text, a table, an empty file, a GIF and a page of markup are told what is accepted."""
    for content in (b"", b"hello", b"GIF89a" + bytes(99), b"<svg onload='x'/>", b"%PDF-1.7", b"BM"):
        with refused("photograph_kind") as caught:
            read_photograph(content)
        assert ACCEPTED in caught.value.sentence
        assert caught.value.data["field"] == "file"


def test_too_large_a_file_is_refused_before_it_is_read() -> None:
    """One byte more than is accepted."""
    with refused("photograph_large"):
        read_photograph(jpeg() + bytes(LARGEST_BYTES))


def test_too_small_and_too_wide_pictures_are_refused() -> None:
    """A speck, and a picture that would unfold to 10^10 pixels in memory."""
    with refused("photograph_size"):
        read_photograph(jpeg(LEAST_SIDE_PX - 1, 200))
    huge = struct.pack(">IIBBBBB", 100_000, 100_000, 8, 0, 0, 0, 0)
    with refused("photograph_size"):
        read_photograph(drawn_png(huge, b""))
    start = bytearray(jpeg())
    place = start.index(b"\xff\xc0")
    start[place + 5 : place + 9] = struct.pack(">HH", 60_000, 60_000)
    with refused("photograph_size"):
        read_photograph(bytes(start))


def test_a_png_that_unfolds_to_more_than_it_says_is_refused() -> None:
    """64 x 64 pixels that unpack to sixteen million bytes are a trap, not a picture."""
    header = struct.pack(">IIBBBBB", 64, 64, 8, 0, 0, 0, 0)
    with refused("photograph_broken"):
        read_photograph(drawn_png(header, bytes(16_000_000)))


def test_a_png_with_a_wrong_sum_or_an_unknown_needed_part_is_refused() -> None:
    """A changed byte is seen by its sum; a part that must be understood and is not, by its name."""
    header = struct.pack(">IIBBBBB", 64, 64, 8, 0, 0, 0, 0)
    good = drawn_png(header, bytes(64 * 65))
    assert read_photograph(good).height_px == 64
    with refused("photograph_broken"):
        read_photograph(good[:40] + bytes([good[40] ^ 1]) + good[41:])
    with refused("photograph_kind"):
        read_photograph(drawn_png(header, bytes(64 * 65), chunk(b"NEWS", b"x")))


@pytest.mark.parametrize("whole", [jpeg()[: -len(SECRETS[3])], png()[: -len(SECRETS[3])]])
def test_a_picture_broken_off_anywhere_is_refused(whole: bytes) -> None:
    """Cut at any place before its end, no upload passes and none breaks the reader."""
    assert read_photograph(whole)
    for length in range(0, len(whole), 7):
        with pytest.raises(ShopRuleBroken) as caught:
            read_photograph(whole[:length])
        assert caught.value.code in ("photograph_kind", "photograph_broken")


@pytest.mark.parametrize("mode", ["CMYK"])
def test_a_jpeg_for_the_printing_press_is_refused(mode: str) -> None:
    """Four inks are shown wrongly by many a browser."""
    out = io.BytesIO()
    Image.new(mode, (100, 100)).save(out, "JPEG")
    with refused("photograph_kind"):
        read_photograph(out.getvalue())


@settings(max_examples=400)
@given(
    whole=st.sampled_from([jpeg(turned=6), jpeg(progressive=True), png()]),
    place=st.integers(0, 5000),
    byte=st.integers(0, 255),
)
def test_a_changed_byte_never_breaks_the_reader(whole: bytes, place: int, byte: int) -> None:
    """Either it is still a picture without tales, or it is refused in words."""
    changed = bytearray(whole)
    changed[place % len(changed)] = byte
    told = b""
    try:
        told = read_photograph(bytes(changed)).content
    except ShopRuleBroken as error:
        told = error.sentence.encode()
    assert told.endswith((b".", b"\xff\xd9", b"IEND\xaeB\x60\x82"))
    assert SECRETS[0] not in told


def test_a_secret_in_an_applications_part_never_gets_through() -> None:
    """Every application part of a JPEG but the three that colour needs is left out."""
    whole = jpeg()
    for marker in (*range(0xE0, 0xF0), 0xFE):
        body = b"ICC_PROFILE" + SECRETS[0]
        part = struct.pack(">BBH", 0xFF, marker, len(body) + 2) + body
        found = read_photograph(whole[:2] + part + whole[2:])
        assert SECRETS[0] not in found.content, hex(marker)
