"""Where the customer's sentence and the columns differ, and where they do not."""

import pytest

from reelwright.core.signals.read import read_signal
from reelwright.shop.day.judging.disagreement import disagreements
from reelwright.shop.day.judging.stated_counts import counts_in
from reelwright.shop.day.shelf import Shelf


@pytest.mark.parametrize(
    ("typed", "columns", "asked"),
    [
        ("10 m for 3G", {}, "serial video 2.97 Gb/s"),
        ("10 m, 2.97", {}, "serial video 2.97 Gb/s"),
        ("composite lead, 10 m", {}, "composite video"),
        ("HD lead, 10 m", {"signal": "serial video 270 Mb/s"}, "serial video 1.485 Gb/s"),
        ("10 m with RCAs", {}, "RCA"),
        ("10 m XLR to XLR", {}, "XLR"),
        ("10 m of VID-40", {}, "VID-40"),
        ("12 cables of 10 m", {"quantity": "2"}, "speaks of 12"),
        ("a dozen leads, 10 m", {"quantity": "2"}, "speaks of 12"),
        ("pair of 10 m leads", {}, "speaks of 2"),
        ("two 10 m jumpers", {}, "speaks of 2"),
        ("10 m, three of them", {}, "speaks of 3"),
        ("33 ft", {}, "33 ft"),
        ("about 40 ft", {}, "40 ft"),
        ("10 m red", {}, "red"),
        ("10 m red", {"colour": ""}, "names no colour"),
        ("10 m in the plenum", {}, "air-handling space"),
        ("10 m, buried", {"space": ""}, "buried"),
        ("10 m in a wall", {"cable": "VID-70F"}, "in a wall"),
        ("10 m by Monday", {"due": "2026-11-27"}, "Friday"),
    ],
)
def test_what_the_sentence_says_otherwise_is_asked(
    shelf: Shelf, read, typed: str, columns: dict[str, str], asked: str
) -> None:
    """Structured columns decide, but a difference is the customer's to settle, once."""
    line = read(typed=typed, **columns)
    found = disagreements(line, read_signal(line.signal_text).signal, shelf.vocabulary)
    assert len(found) == 1, found
    assert asked in found[0].replace("\u202f", " ")


@pytest.mark.parametrize(
    ("typed", "columns"),
    [
        ("HD lead, 10 m", {"signal": "serial video 2.97 Gb/s"}),
        ("digital coax, 10 m", {"signal": "coaxial digital audio 96 kHz"}),
        ("about 33 ft", {}),
        ("10 m BNCs, black with red boots", {}),
        ("10 m, gold-plated, black", {}),
        ("10 m of plenum, one run", {"cable": "VID-60P", "space": "plenum"}),
        ("10 m in the room", {"space": "riser"}),
        ("10 m by Friday", {"due": "2026-11-27"}),
        ("10 m for the outside broadcast van", {}),
        ("12-channel snake of 10 m", {}),
        ("75-ohm coax, 10 m", {}),
        ("my usual video cable, 10 m", {"cable": "VID-70"}),
    ],
)
def test_what_only_looks_different_is_not_asked(
    shelf: Shelf, read, typed: str, columns: dict[str, str]
) -> None:
    """A question too many costs a day: class words, boots, plating and approximations agree."""
    line = read(typed=typed, **columns)
    assert disagreements(line, read_signal(line.signal_text).signal, shelf.vocabulary) == ()


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        ("6 × 85 ft", (6,)),
        ("4 x 25 ft orange", (4,)),
        ("10 mic cables, 6 m", (10,)),
        ("12 yellow patch leads, 2 m", (12,)),
        ("8 pieces of 50 cm", (8,)),
        ("red tie lines, 3 m, 6 off", (6,)),
        ("one 150 ft camera cable", (1,)),
        ("stereo pair, 2 m", (2,)),
        ("25' black cable", ()),
        ("30 ft leads", ()),
        ("8 loudspeakers tapped 15 W", ()),
        ("120 V cable", ()),
        ("12-channel loom", ()),
        ("12 gauge speaker cable", ()),
        ("2 core cable", ()),
        ("three cable reels", ()),
        ("balanced pair", ()),
    ],
)
def test_counts_are_read_and_other_figures_are_not(text: str, counts: tuple[int, ...]) -> None:
    """Lengths, volts, channels and loudspeakers count no cables."""
    assert counts_in(text) == counts
