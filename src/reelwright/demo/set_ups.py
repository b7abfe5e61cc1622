"""The invented set-ups of the demo workshop.

Strip lengths follow from the connectors' drawings (a test computes them again); dies and minutes
are the shop's own; least pulls are the shop's own where no rule set is named.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.ends.strength.pull_rules import PullMinimum, PullRules, rule_set, wire_of
from reelwright.core.verdicts import Basis, Reason, Source
from reelwright.demo.other_cables import other_entries
from reelwright.demo.set_up_notes import CAUTIONS, STEPS, Work
from reelwright.shop.setups.sheet import Numbers
from reelwright.shop.setups.states import FailureMode, State

_RETENTION = Source(
    text="retention of a crimped ferrule, as the shop asks for it", basis=Basis.COMMON_PRACTICE
)
_CLAMP = Source(text="hold of the strain relief, as the shop asks", basis=Basis.COMMON_PRACTICE)
_TAIL = Source(text="a tinned tail, as the shop asks for it", basis=Basis.COMMON_PRACTICE)
_MODULAR = Source(text="89 N (20 lbf) on a modular plug", basis=Basis.FROM_MEMORY)


@dataclass(frozen=True, kw_only=True)
class SetUpEntry:
    """One set-up with its newest revision, where it stands and how its ends give way."""

    code: str
    cable_code: str
    connector_code: str
    letter: str
    state: State
    numbers: Numbers
    gives_way: FailureMode


@dataclass(frozen=True, kw_only=True)
class _Coax:
    """One row of the coax table; a, b, c and dies in mm, ``minutes`` at the press for an end."""

    code: str
    cable: str
    connector: str
    letter: str
    strip: tuple[str, str, str]
    pin_die: str | None
    ferrule_die: str | None
    program: str
    adapter: str
    pull_n: float
    minutes: str
    blades: str = "PVC"
    height_tolerance: str = "0.010"
    state: State = State.RELEASED
    remark: str = ""


_SPRINGS_MM = Decimal("0.015")
"""A closed hexagon springs back by a hundredth or two."""

COAXES = (
    _Coax(
        code="T-01",
        cable="VID-70",
        connector="BNC-70",
        letter="C",
        strip=("4.25", "5.00", "7.70"),
        pin_die="1.60",
        ferrule_die="8.23",
        program="11",
        adapter="BNC",
        pull_n=220.0,
        minutes="0.95",
    ),
    _Coax(
        code="T-02",
        cable="VID-60",
        connector="BNC-60",
        letter="D",
        strip=("4.25", "4.60", "7.20"),
        pin_die="1.60",
        ferrule_die="6.48",
        program="12",
        adapter="BNC",
        pull_n=180.0,
        minutes="0.95",
        remark="Seat to flange 0.10 mm longer than in rev C, as the connector changed.",
    ),
    _Coax(
        code="T-03",
        cable="VID-40",
        connector="BNC-40",
        letter="B",
        strip=("3.60", "4.00", "6.20"),
        pin_die="1.07",
        ferrule_die="4.52",
        program="13",
        adapter="BNC",
        pull_n=110.0,
        minutes="0.95",
    ),
    _Coax(
        code="T-04",
        cable="VID-28",
        connector="BNC-28",
        letter="A",
        strip=("3.40", "3.60", "5.50"),
        pin_die="1.07",
        ferrule_die="3.25",
        program="14",
        adapter="BNC",
        pull_n=70.0,
        height_tolerance="0.015",
        minutes="1.10",
        state=State.ON_TRIAL,
    ),
    _Coax(
        code="T-05",
        cable="VID-70P",
        connector="BNC-70P",
        letter="B",
        strip=("4.25", "5.00", "7.70"),
        pin_die="1.60",
        ferrule_die="7.36",
        program="15",
        adapter="BNC",
        pull_n=200.0,
        minutes="1.00",
        blades="FEP",
        remark="Not the dies of T-01: the plenum cable is thinner.",
    ),
    _Coax(
        code="T-06",
        cable="VID-60P",
        connector="BNC-60P",
        letter="A",
        strip=("4.25", "4.60", "7.20"),
        pin_die="1.60",
        ferrule_die="6.00",
        program="16",
        adapter="BNC",
        pull_n=150.0,
        minutes="1.00",
        blades="FEP",
    ),
    _Coax(
        code="T-07",
        cable="VID-70F",
        connector="BNC-70F",
        letter="A",
        strip=("4.50", "5.20", "8.20"),
        pin_die="1.73",
        ferrule_die="9.09",
        program="17",
        adapter="BNC",
        pull_n=240.0,
        height_tolerance="0.025",
        minutes="1.05",
        remark="Pin for a stranded conductor.",
    ),
    _Coax(
        code="T-08",
        cable="PHO-61",
        connector="RCA-60",
        letter="B",
        strip=("5.50", "3.00", "6.50"),
        pin_die="1.07",
        ferrule_die="6.48",
        program="18",
        adapter="phono",
        pull_n=150.0,
        minutes="0.95",
        remark="The thin pin of the bag.",
    ),
    _Coax(
        code="T-09",
        cable="VID-60",
        connector="RCA-60",
        letter="B",
        strip=("5.50", "3.00", "6.50"),
        pin_die="1.60",
        ferrule_die="6.48",
        program="19",
        adapter="phono",
        pull_n=150.0,
        minutes="0.95",
        remark="The thick pin of the bag.",
    ),
    _Coax(
        code="T-10",
        cable="VID-40",
        connector="RCA-40",
        letter="A",
        strip=("5.00", "3.00", "5.50"),
        pin_die="1.07",
        ferrule_die="4.52",
        program="20",
        adapter="phono",
        pull_n=100.0,
        minutes="0.95",
    ),
    _Coax(
        code="T-11",
        cable="VID-70",
        connector="F-70",
        letter="B",
        strip=("8.00", "0.00", "6.50"),
        pin_die=None,
        ferrule_die=None,
        program="21",
        adapter="F",
        pull_n=180.0,
        minutes="0.60",
        remark="The conductor is the pin: no nick, exact length.",
    ),
)


def _coax_entry(row: _Coax) -> SetUpEntry:
    crimped = row.pin_die is not None
    work = Work.CRIMP if crimped else Work.COMPRESS
    a, b, c = row.strip
    return SetUpEntry(
        code=row.code,
        cable_code=row.cable,
        connector_code=row.connector,
        letter=row.letter,
        state=row.state,
        numbers=Numbers(
            levels=3 if crimped else 2,
            strip_conductor_mm=Decimal(a),
            strip_conductor_tolerance_mm=Decimal("0.10"),
            strip_dielectric_mm=Decimal(b),
            strip_dielectric_tolerance_mm=Decimal("0.10"),
            strip_braid_mm=Decimal(c),
            strip_braid_tolerance_mm=Decimal("0.15"),
            pin_die_mm=None if row.pin_die is None else Decimal(row.pin_die),
            ferrule_die_mm=None if row.ferrule_die is None else Decimal(row.ferrule_die),
            crimp_height_mm=None if row.pin_die is None else Decimal(row.pin_die) + _SPRINGS_MM,
            crimp_height_tolerance_mm=Decimal(row.height_tolerance) if crimped else None,
            program=row.program,
            blade_set=row.blades,
            test_adapter=row.adapter,
            minimum_pull_n=row.pull_n,
            minimum_pull_source=_RETENTION,
            press_min_per_end=Decimal(row.minutes),
            remark=row.remark,
            steps=STEPS[work],
            cautions=CAUTIONS[work]
            + (
                ("Sharp blades and the slow feed: this jacket tears.",)
                if row.blades == "FEP"
                else ()
            ),
        ),
        gives_way=FailureMode.BRAID_PULLED_OUT if crimped else FailureMode.JACKET_SLIPPED,
    )


@dataclass(frozen=True, kw_only=True)
class _Other:
    """One row of the table of all other ends; lengths in mm, ``minutes`` for an end."""

    code: str
    cable: str
    connector: str
    letter: str
    work: Work
    back: str | None
    bared: str
    tolerance: str
    adapter: str
    pull_n: float
    source: Source
    minutes: str
    gives_way: FailureMode
    rules: PullRules | None = None
    energy_j: float | None = None
    pressure_kpa: float | None = None
    amplitude_um: float | None = None


def _solder(code: str, connector: str, back: str) -> _Other:
    return _Other(
        code=code,
        cable="AUD-BP",
        connector=connector,
        letter="C",
        work=Work.SOLDER,
        back=back,
        bared="5.00",
        tolerance="0.50",
        adapter="audio",
        pull_n=90.0,
        source=_CLAMP,
        minutes="3.00",
        gives_way=FailureMode.JACKET_SLIPPED,
    )


_WELDED = {
    "SPK-16": (96.0, 210.0, 38.0),
    "SPK-14": (149.0, 230.0, 40.0),
    "SPK-14x2W": (149.0, 230.0, 40.0),
    "SPK-12": (243.0, 260.0, 42.0),
    "SPK-10": (378.0, 300.0, 45.0),
}
"""Energy in J, pressure in kPa and amplitude in µm by cable: middles of windows found by trial."""


def _asked(cable: str, rules: PullRules) -> PullMinimum:
    """Return what a rule set asks of one wire of a cable; every cable welded here has its row."""
    value = next(entry.cable for entry in other_entries() if entry.cable.code == cable)
    wire = wire_of(value)
    assert not isinstance(wire, Reason)
    asked = rule_set(rules).minimum_for(wire)
    assert not isinstance(asked, Reason)
    return asked


def _weld(
    code: str, cable: str, letter: str, gives_way: FailureMode = FailureMode.CONDUCTOR_BROKE
) -> _Other:
    asked = _asked(cable, PullRules.COMMERCIAL)
    energy_j, pressure_kpa, amplitude_um = _WELDED[cable]
    return _Other(
        energy_j=energy_j,
        pressure_kpa=pressure_kpa,
        amplitude_um=amplitude_um,
        code=code,
        cable=cable,
        connector="BANANA",
        letter=letter,
        work=Work.WELD,
        back="35.00",
        bared="12.00",
        tolerance="0.50",
        adapter="loudspeaker",
        pull_n=asked.minimum_n,
        source=asked.source,
        minutes="1.20",
        gives_way=gives_way,
        rules=PullRules.COMMERCIAL,
    )


OTHERS = (
    _solder("T-12", "XLR3M", "20.00"),
    _solder("T-13", "XLR3F", "20.00"),
    _Other(
        code="T-14",
        cable="DAT-6",
        connector="8P8C",
        letter="B",
        work=Work.DISPLACE,
        back="12.00",
        bared="0.00",
        tolerance="0.50",
        adapter="8P8C",
        pull_n=89.0,
        source=_MODULAR,
        minutes="1.20",
        gives_way=FailureMode.CONDUCTOR_PULLED_OUT,
    ),
    _weld("T-15", "SPK-14", "B"),
    _Other(
        code="T-16",
        cable="POF-22",
        connector="F05",
        letter="A",
        work=Work.POLISH,
        back="7.00",
        bared="7.00",
        tolerance="0.20",
        adapter="optical",
        pull_n=15.0,
        source=_CLAMP,
        minutes="1.50",
        gives_way=FailureMode.JACKET_SLIPPED,
    ),
    _solder("T-17", "PLUG-635", "25.00"),
    _weld("T-18", "SPK-12", "B"),
    # The thickest that is welded: the joint parts before the wire does.
    _weld("T-19", "SPK-10", "B", FailureMode.JOINT_PEELED),
    _weld("T-20", "SPK-16", "A"),
    _weld("T-21", "SPK-14x2W", "A"),
    _Other(
        code="T-22",
        cable="SPK-14x2W",
        connector="TAILS",
        letter="A",
        work=Work.TIN,
        back="60.00",
        bared="10.00",
        tolerance="1.00",
        adapter="loudspeaker",
        pull_n=223.0,
        source=_TAIL,
        minutes="0.80",
        gives_way=FailureMode.CONDUCTOR_BROKE,
    ),
)


def _other_entry(row: _Other) -> SetUpEntry:
    return SetUpEntry(
        code=row.code,
        cable_code=row.cable,
        connector_code=row.connector,
        letter=row.letter,
        state=State.RELEASED,
        numbers=Numbers(
            levels=1 if row.work in (Work.DISPLACE, Work.POLISH) else 2,
            jacket_back_mm=None if row.back is None else Decimal(row.back),
            cores_bared_mm=Decimal(row.bared),
            cores_bared_tolerance_mm=Decimal(row.tolerance),
            test_adapter=row.adapter,
            weld_horn="H-1" if row.work is Work.WELD else "",
            weld_energy_j=row.energy_j,
            weld_pressure_kpa=row.pressure_kpa,
            weld_amplitude_um=row.amplitude_um,
            minimum_pull_n=row.pull_n,
            minimum_pull_source=row.source,
            pull_rules=row.rules,
            press_min_per_end=Decimal(row.minutes),
            steps=STEPS[row.work],
            cautions=CAUTIONS[row.work],
        ),
        gives_way=row.gives_way,
    )


def set_up_entries() -> Iterator[SetUpEntry]:
    """Yield every set-up of the demo workshop."""
    yield from map(_coax_entry, COAXES)
    yield from map(_other_entry, OTHERS)
