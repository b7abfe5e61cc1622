"""Lines from data sheets: right at audio too, with the fit shown, and mistakes found."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Family, LossPoint, LotMeasure
from reelwright.core.physics.screen_fit import ScreenFit, fit_screen
from reelwright.core.physics.sheet_checks import judge_whole_sheet
from reelwright.core.physics.sheet_line import SheetLine, fit_line, line_of_sheet
from reelwright.core.verdicts import Outcome, Reason
from tests import signal_world
from tests.core.physics.line_world import CLAD_COAX, coax

STATED_HZ = np.array([1e6, 5e6, 1e7, 5e7, 1e8, 5e8, 1e9, 3e9])


def points_of(one: object, frequency: np.ndarray = STATED_HZ) -> tuple[LossPoint, ...]:
    """Losses of a geometry as a data sheet would state them, all digits kept."""
    line = one.parameters(frequency, temperature_celsius=20.0)  # type: ignore[attr-defined]
    return tuple(
        LossPoint(frequency_hz=float(at), loss_db_per_m=float(loss))
        for at, loss in zip(frequency, line.loss_db_per_m, strict=True)
    )


def sheet_line(points: tuple[LossPoint, ...] | None = None, *, direct: bool = True) -> SheetLine:
    """The line that a data sheet of the coax of series 59 makes."""
    one = coax()
    high = one.parameters([1e8], temperature_celsius=20.0)
    low = one.parameters([1.0], temperature_celsius=20.0).resistance_ohm_per_m[0]
    found = fit_line(
        impedance_ohm=float(high.impedance_ohm[0].real),
        delay_s_per_m=float(high.delay_s_per_m[0]),
        direct_ohm_per_m=float(low) if direct else None,
        points=points_of(one) if points is None else points,
    )
    assert isinstance(found, SheetLine)
    return found


def test_the_line_of_a_sheet_is_right_at_audio() -> None:
    """Within 1 % of the exact geometry up to 20 kHz and 13 % at 300 kHz, where k1·√f + k2·f fitted
    to the same losses is wrong by a factor of three.
    """
    frequency = np.array([20.0, 1e3, 20e3, 1e5, 3e5, 1e6, 1e7, 1e9])
    ours = sheet_line().parameters(frequency, temperature_celsius=20.0)
    exact = coax().parameters(frequency, temperature_celsius=20.0)
    away = np.abs(ours.loss_db_per_m / exact.loss_db_per_m - 1)
    assert away[:3].max() < 0.01
    assert away.max() < 0.13
    assert np.abs(ours.impedance_ohm / exact.impedance_ohm - 1)[:3].max() < 0.02
    stated = points_of(coax())
    columns = np.stack([np.sqrt(STATED_HZ), STATED_HZ], axis=1)
    losses = np.array([point.loss_db_per_m for point in stated])
    two_terms = np.linalg.lstsq(columns / losses[:, None], np.ones(losses.size), rcond=None)[0]
    naive = two_terms @ np.array([np.sqrt(1e3), 1e3])
    assert naive < 0.4 * exact.loss_db_per_m[1]


def test_the_residuals_of_the_fit_stay_with_it() -> None:
    """Eight stated losses give eight residuals, none above 3 %, and they are what is left."""
    line = sheet_line()
    ours = line.parameters(STATED_HZ, temperature_celsius=20.0).loss_db_per_m
    stated = np.array([point.loss_db_per_m for point in points_of(coax())])
    np.testing.assert_allclose(line.relative_residuals, ours / stated - 1, atol=1e-12)
    assert 0.005 < line.worst_residual < 0.03


@given(
    skin=st.floats(2e-3, 8e-3),
    tangent=st.floats(5e-5, 1e-3),
    direct=st.floats(0.01, 0.1),
)
def test_a_sheet_made_of_the_law_gives_the_law_back(
    skin: float, tangent: float, direct: float
) -> None:
    """Losses computed from κ and a loss tangent are fitted by just those."""
    made = SheetLine(
        impedance_ohm=75.0,
        delay_s_per_m=4e-9,
        direct_ohm_per_m=direct,
        skin_per_root_hz=skin,
        loss_tangent=tangent,
        lowest_hz=1.0,
        highest_hz=2e10,
        fitted_low_hz=None,
        fitted_high_hz=None,
        relative_residuals=(),
    )
    found = fit_line(
        impedance_ohm=75.0, delay_s_per_m=4e-9, direct_ohm_per_m=direct, points=points_of(made)
    )
    assert isinstance(found, SheetLine)
    assert found.skin_per_root_hz == pytest.approx(skin, rel=1e-6)
    assert found.loss_tangent == pytest.approx(tangent, rel=1e-5)
    assert found.worst_residual < 1e-8


def test_without_a_resistance_nothing_is_answered_at_audio() -> None:
    """Where the direct-current resistance is not stated, 20 kHz is refused, with the range."""
    line = sheet_line(direct=False)
    assert line.parameters([1e7], temperature_celsius=20.0).loss_db_per_m[0] > 0
    with pytest.raises(BadValue, match=r"3e\+06 to 2e\+10"):
        line.parameters([20e3], temperature_celsius=20.0)


def test_beyond_the_stated_losses_is_marked() -> None:
    """6 GHz is answered from losses to 3 GHz, and said to be extrapolated; 100 MHz is not."""
    line = sheet_line()
    assert line.extrapolates(6e9)
    assert not line.extrapolates(1e8)
    assert not line.extrapolates(3e9)


def test_losses_that_fall_make_no_line() -> None:
    """A loss lower than the one below it in frequency gives a reason, not a fit."""
    falling = (*points_of(coax())[:3], LossPoint(frequency_hz=2e7, loss_db_per_m=0.001))
    found = fit_line(impedance_ohm=75.0, delay_s_per_m=4e-9, direct_ohm_per_m=0.06, points=falling)
    assert isinstance(found, Reason)
    assert found.code == "losses-fall"


def test_faster_than_light_is_refused() -> None:
    """A delay of 3 ns/m names its field and what is accepted."""
    with pytest.raises(BadValue, match=r"delay_s_per_m.*faster than light"):
        replace(sheet_line(), delay_s_per_m=3e-9)


def video() -> signal_world.Cable:
    """A video coax of the demo workshop."""
    return signal_world.cable(
        "VID-X",
        signal_world.sheet(75.0, 53.6, 4.019, 21.0, (2.6, 9.4, 22.3, 31.8), screen_ohm_per_km=9.0),
    )


def test_a_measured_delay_stands_before_the_book() -> None:
    """The lot's delay is the line's, the sheet's impedance stays."""
    cable = video()
    lot = replace(
        signal_world.lot(cable, 0.8),
        delay_s_per_m=LotMeasure(value=4.05e-9, relative_uncertainty=0.001),
    )
    book, measured = line_of_sheet(cable, None), line_of_sheet(cable, lot)
    assert isinstance(book, SheetLine)
    assert isinstance(measured, SheetLine)
    assert (book.delay_s_per_m, measured.delay_s_per_m) == (4.019e-9, 4.05e-9)
    assert measured.impedance_ohm == book.impedance_ohm == 75.0
    with pytest.raises(BadValue, match="cable_code"):
        line_of_sheet(cable, replace(lot, cable_code="OTHER"))


def test_a_sheet_that_says_too_little_gives_the_reason() -> None:
    """Impedance alone makes no line, nor do two values without any loss."""
    bare = signal_world.cable("X", signal_world.sheet(75.0))
    lossless = signal_world.cable("Y", signal_world.sheet(75.0, 53.6, 4.02))
    for cable, code in ((bare, "line-not-stated"), (lossless, "losses-not-stated")):
        found = line_of_sheet(cable, None)
        assert isinstance(found, Reason)
        assert found.code == code


def test_a_good_sheet_passes_every_check() -> None:
    """Five values that belong together are all found good."""
    assert {check.outcome for check in judge_whole_sheet(video())} == {Outcome.GOOD}


@pytest.mark.parametrize(
    ("change", "name"),
    [
        ({"capacitance_f_per_m": 35.6e-12}, "data sheet against itself"),
        ({"delay_s_per_m": 1.22e-9}, "velocity factor"),
        ({"capacitance_to_rest_f_per_m": 20e-12}, "capacitance to the rest"),
        ({"conductor_area_m2": 0.3e-6}, "resistance of the conductor's area"),
    ],
)
def test_a_typing_mistake_is_found(change: dict[str, float], name: str) -> None:
    """Two digits turned, nanoseconds a foot for a metre, and a wrong area each fail their check."""
    cable = video()
    wrong = replace(cable, sheet=replace(cable.sheet, **change))  # type: ignore[arg-type]
    bad = {check.name for check in judge_whole_sheet(wrong) if check.outcome is Outcome.BAD}
    assert name in bad


@pytest.mark.parametrize("place", [0, 1, 2, 3])
@pytest.mark.parametrize("factor", [1 / 3.048, 3.048, 1.2])
def test_a_loss_in_another_unit_is_found(place: int, factor: float) -> None:
    """One loss per 100 ft among four per 100 m fails, and where four agree it is named."""
    cable = video()
    points = list(cable.sheet.loss_points)
    points[place] = replace(points[place], loss_db_per_m=points[place].loss_db_per_m * factor)
    wrong = replace(cable, sheet=replace(cable.sheet, loss_points=tuple(points)))
    check = next(one for one in judge_whole_sheet(wrong) if one.name == "stated losses")
    assert check.outcome is Outcome.BAD
    if factor != 1.2:
        assert f"{points[place].frequency_hz / 1e6:g}\u202fMHz" in check.sentence


def test_a_fibre_is_not_asked_for_a_resistance() -> None:
    """Checks that a sheet has no values for are absent, not failed."""
    fibre = signal_world.cable(
        "F", signal_world.sheet(optical_loss_db_per_m=0.2), family=Family.FIBRE
    )
    assert [check.outcome for check in judge_whole_sheet(fibre)] == [Outcome.NOT_COMPUTED]


@pytest.mark.parametrize("factor", [1.0, 1.4, 3.0])
def test_the_factor_of_a_screen_is_found_again(factor: float) -> None:
    """Losses of a coax with a known factor give that factor, to five digits."""
    fit = fit_screen(coax(), points_of(coax(factor=factor)), temperature_celsius=20.0)
    if factor == 1.0:
        # At the bound itself rounding decides between a factor of 1 and "better than smooth".
        assert isinstance(fit, ScreenFit) or fit.code == "better-than-smooth"
        return
    assert isinstance(fit, ScreenFit)
    assert fit.coax.screen.loss_factor == pytest.approx(factor, rel=1e-5)
    assert fit.worst_residual < 1e-6
    assert "8 stated losses" in fit.coax.screen.factor_origin
    assert 1.0 < fit.loss_over_smooth_ratio < factor


def test_losses_no_screen_explains_give_a_reason() -> None:
    """Losses a tenth below smooth tubes, or three times above, are no braid."""
    clad = points_of(CLAD_COAX, STATED_HZ[3:])
    for scale, code in ((0.9, "better-than-smooth"), (4.0, "worse-than-any-braid")):
        scaled = [replace(point, loss_db_per_m=point.loss_db_per_m * scale) for point in clad]
        fit = fit_screen(CLAD_COAX, scaled, temperature_celsius=20.0)
        assert isinstance(fit, Reason)
        assert fit.code == code
    with pytest.raises(BadValue, match="points"):
        fit_screen(CLAD_COAX, (), temperature_celsius=20.0)
