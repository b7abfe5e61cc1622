"""A small catalogue of the demo workshop's cables, with connectors that can be put on them."""

from dataclasses import replace
from decimal import Decimal

from reelwright.core.advice import CatalogueCable, Question
from reelwright.core.parts.connector import Band, Connector, Method
from reelwright.core.parts.jacket import Space
from reelwright.core.parts.length import Length
from reelwright.core.signals import read_signal
from reelwright.core.signals.run import Run
from reelwright.core.signals.signal import Signal
from tests import signal_world as signals


def connector(
    code: str,
    *,
    impedance_ohm: float | None = None,
    contacts: int = 1,
    balanced: bool = False,
    shell: bool = True,
) -> Connector:
    """Return a connector whose face is its code up to the first dash."""
    return Connector(
        code=code,
        name=code,
        mating=code.split("-", maxsplit=1)[0],
        method=Method.SOLDER,
        contacts=contacts,
        shell_contact=shell,
        carries_balanced=balanced,
        impedance_ohm=impedance_ohm,
        body=None,
        solid_conductor_only=None,
        accepts_conductor=None,
        accepts_jacket=Band(low_m=1e-3, high_m=9e-3),
        conductor_setback_m=0.0,
        trim_m=0.0,
        drawing=None,
    )


BNC = connector("BNC-60", impedance_ohm=75.0)
PHONO = connector("phono-60")
F_PLUG = connector("F-60", impedance_ohm=75.0)
XLR3F = connector("XLR3F", contacts=2, balanced=True)
XLR3M = connector("XLR3M", contacts=2, balanced=True)
BANANA = connector("banana", contacts=2, shell=False)
PLUG_8 = connector("8P8C", contacts=8, balanced=True, shell=False)
F05 = connector("F05", shell=False)


def sized(cable: signals.Cable, outside_mm: float, mass_g_per_m: float) -> signals.Cable:
    """Return a cable with the outside diameter and mass of its size."""
    jacket = replace(cable.jacket, outside_diameter_m=outside_mm * 1e-3)
    inside = replace(cable.layers[0], outside_diameter_m=0.3e-3)
    return replace(cable, layers=(inside, jacket), mass_kg_per_m=mass_g_per_m / 1e3)


def entry(
    cable: signals.Cable,
    outside_mm: float,
    mass_g_per_m: float,
    price: str,
    *connectors: Connector,
) -> CatalogueCable:
    """Return a cable of the catalogue at a price per metre."""
    return CatalogueCable(
        cable=sized(cable, outside_mm, mass_g_per_m),
        lot=None,
        connectors=connectors,
        price_per_m=Decimal(price),
    )


def coax(
    cable: signals.Cable, outside_mm: float, mass_g_per_m: float, price: str
) -> CatalogueCable:
    """Return a video coax that takes BNC, F and phono."""
    return entry(cable, outside_mm, mass_g_per_m, price, BNC, F_PLUG, PHONO)


CATALOGUE = (
    coax(signals.VID_70, 6.99, 61, "1.320"),
    coax(signals.VID_60, 5.94, 45, "0.980"),
    coax(signals.VID_40, 4.1, 24, "0.640"),
    coax(signals.VID_28, 2.8, 13, "0.520"),
    coax(signals.VID_70P, 5.97, 58, "2.610"),
    coax(signals.VID_60P, 5.08, 43, "2.080"),
    coax(signals.VID_70F, 7.62, 75, "1.700"),
    entry(signals.PHO_61, 6.1, 50, "1.100", PHONO),
    entry(signals.AUD_BP, 6.0, 45, "0.900", XLR3F, XLR3M),
    entry(signals.SPK_16, 6.0, 60, "0.600", BANANA),
    entry(signals.SPK_14, 7.0, 90, "0.900", BANANA),
    entry(signals.SPK_12, 8.5, 130, "1.400", BANANA),
    entry(signals.DAT_6, 6.0, 40, "0.500", PLUG_8),
    entry(signals.POF_22, 2.2, 4, "0.700", F05),
)


def signal(typed: str) -> Signal:
    """Return the signal that a text names."""
    found = read_signal(typed).signal
    assert found is not None, typed
    return found


def question(
    typed: str | Signal,
    cable: signals.Cable | None,
    length_m: float,
    *,
    ends: tuple[str, str] = ("BNC-60", "BNC-60"),
    catalogue: tuple[CatalogueCable, ...] = CATALOGUE,
    celsius: float = 20.0,
    adapters: int = 0,
    space: Space | None = None,
) -> Question:
    """Return the question of a run, between two BNC plugs unless told otherwise."""
    codes = {each.code: each for row in CATALOGUE for each in row.connectors}
    named = {row.cable.code: row.cable for row in CATALOGUE}
    length = Length(mean_m=length_m, standard_uncertainty_m=0.001 * length_m)
    asked = None
    if cable is not None:
        asked = Run(
            cable=named[cable.code],
            lot=None,
            length=length,
            temperature_celsius=celsius,
            connectors=(codes[ends[0]], codes[ends[1]]),
            adapters=adapters,
        )
    return Question(
        signal=signal(typed) if isinstance(typed, str) else typed,
        length=length,
        temperature_celsius=celsius,
        space=space,
        ends=((ends[0],), (ends[1],)),
        adapters=adapters,
        catalogue=catalogue,
        asked=asked,
    )
