"""A data sheet held against itself: capacitance, impedance and delay are bound to each other."""

from reelwright.core.parts.cable import DataSheet
from reelwright.core.verdicts import Basis, Check, Outcome, Source

ALLOWED_DISAGREEMENT = 0.02
"""Largest distance of C·Z0/delay from 1 [1] that rounding and tolerance explain."""

_SOURCE = Source(
    text="on a line of low loss Z0 = √(L/C) and delay = √(L·C), so C·Z0 = delay; 2 % allowed",
    basis=Basis.COMPUTED,
)


def judge_sheet(sheet: DataSheet) -> Check:
    """Return whether C·Z0 equals the delay; not computed where one of the three is not stated."""
    name = "data sheet against itself"
    if (
        sheet.capacitance_f_per_m is None
        or sheet.impedance_ohm is None
        or sheet.delay_s_per_m is None
    ):
        return Check(
            name=name,
            outcome=Outcome.NOT_COMPUTED,
            sentence="Not computed: impedance, capacitance and delay are not all stated.",
            source=_SOURCE,
            value=None,
            limit=None,
            margin=None,
            unit="1",
        )
    ratio = sheet.capacitance_f_per_m * sheet.impedance_ohm / sheet.delay_s_per_m
    away = abs(ratio - 1)
    agrees = away <= ALLOWED_DISAGREEMENT
    return Check(
        name=name,
        outcome=Outcome.GOOD if agrees else Outcome.BAD,
        sentence=(
            f"Capacitance times impedance is {ratio:.3f} of the delay: "
            + (
                "the three agree."
                if agrees
                else "one of the three is a typing mistake or in another unit."
            )
        ),
        source=_SOURCE,
        value=ratio,
        limit=1.0,
        margin=ALLOWED_DISAGREEMENT - away,
        unit="1",
    )
