"""The invented lots and reels of the demo workshop, as counted on the eve of its working day."""

import datetime as dt
from dataclasses import dataclass

from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S

LOT_DELAY_RELATIVE_UNCERTAINTY = 0.001
"""Of a velocity measured on a sample of the lot."""

_FIRST_LOT = 2350
_FIRST_LOT_ON = dt.date(2026, 8, 3)


@dataclass(frozen=True, kw_only=True)
class LotEntry:
    """One lot; ``velocity_factor`` where the shop measured it."""

    code: str
    cable_code: str
    colour: str
    velocity_factor: float | None = None
    note: str = ""

    @property
    def received_on(self) -> dt.date:
        """Lots are numbered as they come in, about one a day."""
        return _FIRST_LOT_ON + dt.timedelta(days=int(self.code[1:]) - _FIRST_LOT)

    @property
    def delay_s_per_m(self) -> float | None:
        """1 / (velocity factor × speed of light)."""
        if self.velocity_factor is None:
            return None
        return 1 / (self.velocity_factor * SPEED_OF_LIGHT_M_PER_S)


@dataclass(frozen=True, kw_only=True)
class FlawEntry:
    """A flaw, from the outer end."""

    from_outer_mm: int
    length_mm: int
    note: str


@dataclass(frozen=True, kw_only=True)
class ReelEntry:
    """One reel: what is left on it and how well that is known; 0 mm: used up in the history.

    ``counted`` False: a full reel that came in with the maker's length and was not touched.
    """

    code: str
    lot: LotEntry
    left_mm: int
    uncertainty_mm: float
    location: str
    cuts: int
    longest_cut_mm: int
    counted: bool = True
    flaw: FlawEntry | None = None


def _lot(
    code: str, cable: str, colour: str, velocity: float | None = None, note: str = ""
) -> LotEntry:
    return LotEntry(code=code, cable_code=cable, colour=colour, velocity_factor=velocity, note=note)


def _reel(
    code: str,
    lot: LotEntry,
    left_m: float,
    uncertainty_m: float,
    location: str,
    *,
    cuts: int = 6,
    longest_m: float = 8.0,
    counted: bool = True,
    flaw: FlawEntry | None = None,
) -> ReelEntry:
    return ReelEntry(
        code=code,
        lot=lot,
        left_mm=round(left_m * 1000),
        uncertainty_mm=uncertainty_m * 1000,
        location=location,
        cuts=cuts,
        longest_cut_mm=round(longest_m * 1000),
        counted=counted,
        flaw=flaw,
    )


REELS = (
    _reel("R-101", _lot("L2401", "VID-70", "BK"), 212.0, 1.9, "A1", cuts=9, longest_m=24.0),
    _reel("R-102", _lot("L2403", "VID-70", "BU"), 88.5, 1.1, "A2", longest_m=15.0),
    # The lot that certificate 0417 was made from; nothing is left of it.
    _reel("R-110", _lot("L2371", "VID-60", "GN", 0.8290), 0.0, 0.0, "B1", cuts=2, longest_m=9.0),
    _reel("R-111", _lot("L2402", "VID-60", "BK", 0.8300), 305.0, 1.83, "B1", counted=False),
    _reel(
        "R-112",
        _lot("L2377", "VID-60", "OG", note="next orange due on 4 December 2026"),
        18.6,
        0.15,
        "B2",
        cuts=4,
    ),
    _reel(
        "R-113",
        _lot("L2391", "VID-60", "RD"),
        41.0,
        0.25,
        "B2",
        flaw=FlawEntry(from_outer_mm=12_200, length_mm=200, note="jacket crushed"),
    ),
    _reel("R-114", _lot("L2406", "VID-60", "RD", note="shade slightly darker"), 60.0, 0.4, "B2"),
    _reel("R-115", _lot("L2405", "VID-60", "GN", 0.8265), 132.0, 0.9, "B3", cuts=8),
    _reel("R-116", _lot("L2418", "VID-60", "BU"), 164.0, 1.1, "B3", cuts=8),
    _reel("R-121", _lot("L2413", "VID-40", "RD", 0.8285), 62.0, 0.4, "C1", cuts=4),
    _reel("R-122", _lot("L2414", "VID-40", "GN", 0.8302), 48.0, 0.35, "C1", cuts=4),
    _reel("R-123", _lot("L2415", "VID-40", "BU", 0.8311), 55.0, 0.4, "C1", cuts=4),
    _reel("R-124", _lot("L2416", "VID-40", "GY", 0.8290), 44.0, 0.3, "C2", cuts=3),
    _reel("R-125", _lot("L2417", "VID-40", "BK", 0.8296), 88.0, 0.6, "C2", cuts=7),
    _reel("R-126", _lot("L2419", "VID-28", "BK"), 70.0, 0.5, "C3", cuts=2, longest_m=3.0),
    _reel(
        "R-131",
        _lot("L2399", "VID-70P", "WH", note="next white due on 6 December 2026"),
        140.0,
        0.9,
        "D1",
        cuts=2,
        longest_m=20.0,
    ),
    _reel("R-132", _lot("L2410", "VID-70P", "BK"), 37.0, 0.3, "D1", cuts=2),
    _reel("R-133", _lot("L2420", "VID-60P", "WH"), 85.0, 0.6, "D2", cuts=3, longest_m=15.0),
    _reel("R-141", _lot("L2408", "VID-70F", "BK"), 54.0, 0.5, "D3", cuts=4),
    _reel("R-151", _lot("L2380", "PHO-61", "BK"), 96.0, 0.6, "E1", cuts=8, longest_m=3.0),
    _reel("R-161", _lot("L2411", "AUD-BP", "BK"), 410.0, 4.1, "E2", cuts=9, longest_m=20.0),
    _reel("R-162", _lot("L2421", "AUD-BP", "RD"), 120.0, 1.0, "E2", cuts=4),
    _reel("R-171", _lot("L2366", "SPK-14x2W", "WH"), 150.0, 1.2, "F1", cuts=3, longest_m=25.0),
    _reel("R-172", _lot("L2422", "SPK-14", "BK"), 140.0, 1.0, "F1", cuts=5),
    _reel("R-173", _lot("L2423", "SPK-12", "BK"), 120.0, 0.9, "F2", cuts=5),
    _reel("R-174", _lot("L2424", "SPK-10", "BK"), 80.0, 0.6, "F2", cuts=2),
    _reel("R-175", _lot("L2425", "SPK-16", "BK"), 160.0, 1.1, "F2", cuts=5),
    _reel("R-181", _lot("L2350", "POF-22", "BK"), 120.0, 0.7, "G1", cuts=6, longest_m=4.0),
    _reel("R-191", _lot("L2412", "DAT-6", "YE"), 180.0, 1.1, "G2", cuts=8, longest_m=10.0),
    _reel("R-192", _lot("L2426", "DAT-6", "GY"), 150.0, 1.0, "G2", cuts=6, longest_m=10.0),
)
