"""Limits of categories against each other, and the category that a data sheet bears out."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.signals.category import cable, links
from reelwright.core.signals.category.cable import Category
from reelwright.core.signals.category.cords import warmth_factor, work_cord_m
from reelwright.core.signals.category.links import Link
from reelwright.core.signals.category.shown import category_shown
from tests.core.signals.data_world import DAT_6, at_the_limit, data_cable

BAND_HZ = np.geomspace(1e6, 99.9e6, 200)


@pytest.mark.parametrize("category", Category)
@pytest.mark.parametrize("link", Link)
def test_a_channel_is_never_stricter_than_its_parts(category: Category, link: Link) -> None:
    """It may lose what its parts do or more, and couple as much as its cable or more."""
    parts = 0.9 * cable.insertion_loss_db(category, BAND_HZ)
    parts += link.connections * links.connection_loss_db(category, BAND_HZ)
    assert (links.insertion_loss_db(category, link, BAND_HZ) >= parts - 1e-12).all()
    near = links.near_crosstalk_db(category, link, BAND_HZ)
    assert (near < cable.near_crosstalk_db(category, BAND_HZ)).all()


@pytest.mark.parametrize("link", Link)
def test_a_higher_category_is_never_the_worse_one(link: Link) -> None:
    """From 10 MHz up loss, crosstalk and echoes of a category are within those of the one below."""
    band = BAND_HZ[BAND_HZ > 10e6]
    for lower, higher in ((Category.FIVE_E, Category.SIX), (Category.SIX, Category.SIX_A)):
        slack = 0.7 if higher is Category.SIX_A else 0.0  # 6A's cords may lose half as much again
        loss = links.insertion_loss_db(higher, link, band)
        assert (loss <= links.insertion_loss_db(lower, link, band) + slack).all()
        for of in (links.near_crosstalk_db, links.return_loss_db):
            assert (of(higher, link, band) >= of(lower, link, band) - 1e-12).all()


@pytest.mark.parametrize("category", Category)
def test_a_power_sum_is_never_above_pair_to_pair(category: Category) -> None:
    """All other pairs together couple more than one of them."""
    for pair, together in (
        (cable.near_crosstalk_db, cable.near_crosstalk_sum_db),
        (cable.far_crosstalk_db, cable.far_crosstalk_sum_db),
    ):
        assert (together(category, BAND_HZ) < pair(category, BAND_HZ)).all()


def test_limits_have_no_steps_where_their_formulae_meet() -> None:
    """On either side of 10, 20 and 40 MHz a return loss differs by two hundredths at most."""
    for megahertz in (10, 20, 40):
        for link in Link:
            low, high = links.return_loss_db(
                Category.SIX, link, np.array([megahertz - 1e-4, megahertz + 1e-4]) * 1e6
            )
            assert abs(low - high) < 0.02
        low, high = cable.return_loss_db(
            Category.SIX, np.array([megahertz - 1e-4, megahertz + 1e-4]) * 1e6
        )
        assert abs(low - high) < 0.02


@pytest.mark.parametrize("frequency_hz", [0.9e6, 101e6, float("nan"), -1.0])
def test_no_limit_is_carried_beyond_its_band(frequency_hz: float) -> None:
    """Category 5e ends at 100 MHz and starts at 1 MHz; what is accepted is named."""
    with pytest.raises(BadValue, match="1e\\+06 to 1e\\+08"):
        cable.insertion_loss_db(Category.FIVE_E, frequency_hz)


def test_what_is_not_known_of_6a_links_is_not_made_up() -> None:
    """The crosstalk of a 6A permanent link above 330 MHz is refused; its channel is known."""
    with pytest.raises(BadValue, match="is known to us"):
        links.near_crosstalk_db(Category.SIX_A, Link.PERMANENT_LINK, 400e6)
    assert float(links.near_crosstalk_db(Category.SIX_A, Link.CHANNEL, 400e6)) < 31


def test_unbalance_has_a_floor() -> None:
    """3 % of the loop, but 0.2 Ω is always allowed; a loop below zero is not."""
    assert links.unbalance_limit_ohm(1.0) == 0.2
    assert links.unbalance_limit_ohm(20.0) == pytest.approx(0.6)
    with pytest.raises(BadValue):
        links.unbalance_limit_ohm(-1.0)


@given(st.floats(min_value=-40, max_value=100), st.floats(min_value=0, max_value=20))
def test_warmth_never_helps(celsius: float, more: float) -> None:
    """The allowance grows with temperature, is 1 up to 20 °C, and a screen needs less of it."""
    for screened in (True, False):
        here = float(warmth_factor(celsius, screened=screened))
        assert 1 <= here <= float(warmth_factor(celsius + more, screened=screened))
    assert warmth_factor(celsius, screened=True) <= warmth_factor(celsius, screened=False)


def test_work_cords_end_at_their_limits() -> None:
    """Little horizontal cable leaves 22 m and no more; cords at the rack can take all of it."""
    assert work_cord_m(horizontal_m=10.0, rack_cords_m=5.0) == 22.0
    assert work_cord_m(horizontal_m=90.0, rack_cords_m=12.0) == 0.0
    for horizontal_m, rack_m in ((91.0, 5.0), (-1.0, 5.0), (50.0, -1.0)):
        with pytest.raises(BadValue):
            work_cord_m(horizontal_m=horizontal_m, rack_cords_m=rack_m)


def test_the_demos_patch_cable_bears_out_category_6() -> None:
    """Its losses, a fifth above category 6 to the tenth they are printed to, are those of 6."""
    shown = category_shown(DAT_6, None)
    assert shown.category is Category.SIX
    assert "category 6A allows" in shown.against


@pytest.mark.parametrize("category", Category)
def test_cable_at_the_limit_bears_out_its_category(category: Category) -> None:
    """What loses exactly what is allowed is of the category, and of no higher one."""
    assert category_shown(at_the_limit(category), None).category is category


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"impedance_ohm": 120.0}, "impedance is 120\u202fΩ"),
        ({"ohm_per_km": 150.0}, "a conductor has 150\u202fΩ/km"),
        ({"losses": ((10, 7.1), (100, 30.0))}, "category 5e allows 26.4\u202fdB/100\u202fm"),
        ({"losses": ((10, 7.1), (62.5, 18.0))}, "losses of the cable are known to 62.5\u202fMHz"),
        ({"losses": ()}, "losses of the cable are known nowhere"),
    ],
)
def test_what_stands_against_a_category_is_named(change: dict[str, object], told: str) -> None:
    """A wrong impedance, thin conductors, too much loss, losses that end too early."""
    values: dict[str, object] = {
        "losses": ((10, 7.1), (100, 23.8), (250, 39.4)),
        "ohm_per_km": 130.0,
        "solid": False,
    }
    values.update(change)
    losses = values.pop("losses")
    shown = category_shown(data_cable("ODD", losses, **values), None)  # type: ignore[arg-type]
    assert shown.category is None
    assert told in shown.against
