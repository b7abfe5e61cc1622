"""Cuts as one list of positions, and how many levels a connector needs."""

from dataclasses import replace

import pytest

from reelwright.core.ends.strip.cuts import Cut, cuts_of
from reelwright.core.ends.strip.levels import Level, needed_levels
from reelwright.core.ends.strip.plan import StripPlan, WireStrip
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.layers import LayerRole
from reelwright.core.verdicts import Reason
from tests.ends_world import (
    AUD_BP,
    BANANA,
    BNC_70,
    DAT_6,
    F05,
    F_70,
    P8C,
    POF_22,
    RCA_60,
    SPK_14,
    VID_70,
    XLR_M,
    cable,
    coax_strip,
    layer,
    wire_strip,
)


def cut_list(of: Cable, strip: StripPlan | WireStrip) -> list[tuple[float | None, str, str]]:
    """Return position, innermost layer cut and layer spared of every cut."""
    cuts = cuts_of(of, strip)
    assert not isinstance(cuts, Reason), cuts.sentence
    return [(cut.position_mm, cut.name, str(cut.spares.role)) for cut in cuts]


def test_three_levels_are_three_cuts_counted_from_the_end() -> None:
    """4.25, 9.25 and 16.95 mm: down to the conductor, the dielectric, the braid."""
    assert cut_list(VID_70, coax_strip(4.25, 5.00, 7.70)) == [
        (4.25, "dielectric", "conductor"),
        (9.25, "foil", "dielectric"),
        (16.95, "jacket", "braid"),
    ]


def test_cuts_at_one_place_are_one_cut() -> None:
    """A compressed end has two, an end with nothing but bare conductor has one."""
    assert cut_list(VID_70, coax_strip(8.00, 0.00, 6.50)) == [
        (8.00, "dielectric", "conductor"),
        (14.50, "jacket", "braid"),
    ]
    assert cut_list(VID_70, coax_strip(8.00, 0.00, 0.00)) == [(8.00, "dielectric", "conductor")]


def test_the_deepest_cut_goes_through_everything_outside_it() -> None:
    """From the jacket inwards, each layer once, and never the one it spares."""
    cuts = cuts_of(VID_70, coax_strip(4.25, 5.00, 7.70))
    assert not isinstance(cuts, Reason)
    assert [[str(each.role) for each in cut.through] for cut in cuts] == [
        ["jacket", "braid", "foil", "dielectric"],
        ["jacket", "braid", "foil"],
        ["jacket"],
    ]
    assert all(cut.spares not in cut.through for cut in cuts)


def test_wires_have_two_cuts_or_one() -> None:
    """Cores bared and jacket back are two; contacts that cut through, and a fibre, have one."""
    assert cut_list(SPK_14, wire_strip(35.0, 12.0)) == [
        (12.0, "core", "conductor"),
        (35.0, "jacket", "core"),
    ]
    assert cut_list(DAT_6, wire_strip(12.0, 0.0)) == [(12.0, "jacket", "core")]
    assert cut_list(POF_22, wire_strip(7.0, 7.0)) == [(7.0, "jacket", "conductor")]
    assert cut_list(AUD_BP, wire_strip(None, 5.0))[1] == (None, "jacket", "braid")


def test_cores_side_by_side_are_spared_as_the_circle_around_them() -> None:
    """Two cores of 3.40 mm reach to 6.80 mm: what the blade in the jacket must not touch."""
    cuts = cuts_of(SPK_14, wire_strip(35.0, 12.0))
    assert not isinstance(cuts, Reason)
    assert cuts[1].spares.outside_diameter_m == pytest.approx(6.80e-3)


def test_impossible_layers_are_refused_by_name() -> None:
    """A braid no thicker than the foil, and a jacket no wider than its cores, cannot be cut."""
    thin = replace(
        VID_70,
        layers=tuple(
            layer(each.role, 4.67) if each.role is LayerRole.BRAID else each
            for each in VID_70.layers
        ),
    )
    against = cuts_of(thin, coax_strip(4.25, 5.00, 7.70))
    assert isinstance(against, Reason)
    assert against.code == "layers_impossible"
    assert "braid" in against.sentence
    assert "foil" in against.sentence
    tight = cable(
        "TIGHT",
        Family.LOUDSPEAKER,
        (
            layer(LayerRole.CONDUCTOR, 1.9),
            layer(LayerRole.CORE, 3.4),
            layer(LayerRole.JACKET, 6.0),
        ),
        conductors=2,
        screened=False,
        solid=False,
        impedance_ohm=None,
    )
    against = cuts_of(tight, wire_strip(35.0, 12.0))
    assert isinstance(against, Reason)
    assert "6.00" in against.sentence


def test_cores_cannot_be_bared_beyond_the_jacket() -> None:
    """Baring 12 mm with the jacket taken back by 10 is refused."""
    against = cuts_of(SPK_14, wire_strip(10.0, 12.0))
    assert isinstance(against, Reason)
    assert against.code == "strip_impossible"


def test_a_layer_that_nobody_gave_is_said() -> None:
    """A coax strip on a cable without a dielectric names what is missing."""
    against = cuts_of(SPK_14, coax_strip(4.25, 5.0, 7.7))
    assert isinstance(against, Reason)
    assert "dielectric" in against.sentence


def test_a_cut_through_nothing_is_refused() -> None:
    """A cut opens one layer at least."""
    with pytest.raises(BadValue):
        Cut(position_mm=4.0, tolerance_mm=0.1, through=(), spares=VID_70.layers[0])


def levels(of: Cable, connector: object) -> list[str]:
    """Return which layers the levels of an end show."""
    found = needed_levels(of, connector)  # type: ignore[arg-type]
    assert not isinstance(found, Reason)
    assert all(isinstance(each, Level) and each.because for each in found)
    return [each.shows for each in found]


def test_levels_follow_from_what_the_drawing_has_a_place_for() -> None:
    """Barrel, seat and stem make three; a conductor that is the pin leaves two."""
    assert levels(VID_70, BNC_70) == ["conductor", "dielectric", "braid"]
    assert levels(VID_70, F_70) == ["conductor", "braid"]


def test_levels_without_a_drawing_follow_from_how_contacts_are_joined() -> None:
    """Soldered and welded pairs need two; contacts that cut through and fibres one."""
    assert levels(AUD_BP, XLR_M) == ["conductor", "cores"]
    assert levels(SPK_14, BANANA) == ["conductor", "cores"]
    assert levels(DAT_6, P8C) == ["cores"]
    assert levels(POF_22, F05) == ["fibre"]
    assert levels(VID_70, XLR_M) == ["conductor", "dielectric", "braid"]


def test_one_insulated_wire_to_be_tinned_needs_one_level() -> None:
    """With no cores to part, baring the conductor is all."""
    hook_up = cable(
        "HOOK-UP",
        Family.LOUDSPEAKER,
        (layer(LayerRole.CONDUCTOR, 1.0), layer(LayerRole.JACKET, 2.0)),
        conductors=1,
        screened=False,
        solid=False,
        impedance_ohm=None,
    )
    assert levels(hook_up, XLR_M) == ["conductor"]


def test_a_drawing_that_holds_nothing_gives_no_levels() -> None:
    """A crimped connector without barrel, seat and stem length is not computed."""
    nothing = needed_levels(VID_70, RCA_60)
    assert isinstance(nothing, Reason)
    assert nothing.code == "levels_not_computed"
