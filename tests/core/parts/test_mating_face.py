"""Mating faces: what is known of them, from whom, and what is not."""

from dataclasses import replace

import pytest

from reelwright.core.errors import BadValue
from reelwright.core.parts.mating_face import FACES, FaceFigure, mating_face
from reelwright.core.verdicts import Basis
from tests.ends_world import BNC_60, F_70, INVENTED, RCA_60, XLR_M


def test_a_face_is_found_by_its_name_and_its_class() -> None:
    """BNC of 50 Ω and of 75 Ω are two faces with one outer conductor; a phono has no class."""
    wide, narrow = mating_face(BNC_60), mating_face(replace(BNC_60, impedance_ohm=50.0))
    assert wide is not None
    assert narrow is not None
    assert (wide.impedance_ohm, narrow.impedance_ohm) == (75.0, 50.0)
    assert wide.outer_bore == narrow.outer_bore
    assert wide.pin_diameter is None
    assert mating_face(RCA_60) is not None
    assert mating_face(F_70) is not None


def test_a_face_that_is_not_written_down_is_none() -> None:
    """Nothing is made up for another name or another class."""
    assert mating_face(XLR_M) is None
    assert mating_face(replace(F_70, impedance_ohm=50.0)) is None


def test_what_was_remembered_says_so() -> None:
    """Only the bore of the BNC was read in its standard's title; all else is from memory."""
    figures = [
        figure
        for face in FACES
        for figure in (face.tip, face.shoulder, face.pin_diameter, face.outer_bore)
        if figure is not None
    ]
    assert figures
    read = {each.source.text for each in figures if each.source.basis is Basis.STANDARD}
    assert read == {"IEC 61169-8:2007, its title: 6,5 mm (0,256 in)"}
    assert all(each.source.basis in (Basis.STANDARD, Basis.FROM_MEMORY) for each in figures)


def test_a_figure_has_a_limit_and_its_limits_in_order() -> None:
    """No limit at all and a least above the most are refused."""
    with pytest.raises(BadValue):
        FaceFigure(least_m=None, most_m=None, source=INVENTED)
    with pytest.raises(BadValue):
        FaceFigure(least_m=2e-3, most_m=1e-3, source=INVENTED)
