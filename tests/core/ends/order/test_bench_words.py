"""Pin maps, order of work and cautions: what the bench is told."""

from dataclasses import replace

import pytest

from reelwright.core.ends.care.cautions import Job, cautions
from reelwright.core.ends.care.exposure import allowed_noise_h, mean_noise_level_db
from reelwright.core.ends.fit.pin_map import PinMap, PinRow, pin_map
from reelwright.core.ends.order.steps import EndSetUp, order_of_work
from reelwright.core.ends.strip.plan import MACHINE_STRIP_TOLERANCES, StripPlan, WireStrip
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector, Method
from reelwright.core.verdicts import Reason
from tests.ends_world import (
    AUD_BP,
    BANANA,
    BNC_60,
    DAT_6,
    F05,
    P8C,
    POF_22,
    RCA_60,
    SPK_14,
    TRS,
    VID_60,
    XLR_F,
    XLR_M,
)


def _rows(cable: Cable, a: Connector, b: Connector) -> list[tuple[str, str, str]]:
    made = pin_map(cable, a, b)
    assert isinstance(made, PinMap), made
    return [(row.conductor, row.contact_a, row.contact_b) for row in made.rows]


def test_microphone_to_three_contact_plug_goes_one_sleeve_two_tip_three_ring() -> None:
    """Contact 1 to sleeve, 2 to tip, 3 to ring."""
    assert [(a, b) for _, a, b in _rows(AUD_BP, XLR_F, TRS)] == [
        ("1", "sleeve"),
        ("2", "tip"),
        ("3", "ring"),
    ]


def test_like_to_like_goes_straight_through() -> None:
    """Coax centre to centre, microphone 1-2-3, eight data contacts in order, fibre to fibre."""
    assert _rows(VID_60, BNC_60, BNC_60) == [
        ("centre", "centre", "centre"),
        ("screen", "shell", "shell"),
    ]
    assert _rows(VID_60, BNC_60, RCA_60)[0] == ("centre", "centre", "tip")
    for cable, a, b in ((AUD_BP, XLR_F, XLR_M), (DAT_6, P8C, P8C), (SPK_14, BANANA, BANANA)):
        assert all(x == y for _, x, y in _rows(cable, a, b))
    assert len(_rows(DAT_6, P8C, P8C)) == 8
    assert _rows(POF_22, F05, F05) == [("fibre", "ferrule", "ferrule")]


def test_a_balanced_end_to_an_unbalanced_one_is_asked() -> None:
    """How the balance ends depends on the equipment: a question, never a guess."""
    reason = pin_map(AUD_BP, XLR_F, RCA_60)
    assert isinstance(reason, Reason)
    assert reason.code == "ask_how_balance_ends"


def test_a_face_that_is_not_on_record_is_said() -> None:
    """A mating face nobody recorded gives a reason with its name."""
    reason = pin_map(VID_60, BNC_60, replace(BNC_60, mating="seven-sided thing"))
    assert isinstance(reason, Reason)
    assert "seven-sided thing" in reason.sentence


def test_a_row_is_a_named_record() -> None:
    """The first row of a coax map is its centre conductor."""
    made = pin_map(VID_60, BNC_60, BNC_60)
    assert isinstance(made, PinMap)
    assert made.rows[0] == PinRow(conductor="centre", contact_a="centre", contact_b="centre")


COAX_STRIP = StripPlan(
    conductor_mm=4.25,
    dielectric_mm=4.6,
    braid_mm=7.2,
    tolerances=MACHINE_STRIP_TOLERANCES,
    folds_braid=False,
)


def test_boot_and_ferrule_come_before_the_strip_and_the_press() -> None:
    """The boot goes on first, then the ferrule, and both before anything is stripped."""
    steps = order_of_work(
        EndSetUp(
            method=Method.CRIMP_CRIMP,
            strip=COAX_STRIP,
            boot=True,
            program="14",
            pin_die="1.60",
            ferrule_die="6.48",
        )
    )
    texts = [step.text for step in steps]
    assert texts[0] == "boot, then ferrule, onto the cable"
    assert texts[1] == "strip with program 14"
    assert [i for i, text in enumerate(texts) if "cavity 1.60" in text] == [2]
    assert [i for i, text in enumerate(texts) if "cavity 6.48" in text] == [4]
    assert [step.number for step in steps] == list(range(1, len(steps) + 1))


def test_every_method_has_its_own_order() -> None:
    """Each way of making an end has three steps or more and differs from every other."""
    orders = {
        method: order_of_work(
            EndSetUp(
                method=method,
                strip=WireStrip(jacket_back_mm=20.0, bared_mm=0.0, tolerance_mm=0.5)
                if method is Method.DISPLACEMENT
                else COAX_STRIP,
                boot=False,
                program=None,
                pin_die=None,
                ferrule_die=None,
            )
        )
        for method in Method
    }
    assert all(len(steps) >= 3 for steps in orders.values())
    assert len({tuple(step.text for step in steps) for steps in orders.values()}) == len(Method)


def _codes(*methods: Method, line_v: float | None = None, test_v: float | None = None) -> list[str]:
    job = Job(methods=methods, fluoropolymer=False, line_v=line_v, test_v=test_v)
    return [caution.code for caution in cautions(job)]


def test_cautions_follow_the_method_each_once_and_defer_at_the_end() -> None:
    """Two methods with blades name them once; the last caution puts local rules first."""
    codes = _codes(Method.CRIMP_CRIMP, Method.SOLDER)
    assert codes == ["blades", "press", "die_change", "solder", "local_rules"]
    assert _codes(Method.WELD) == ["blades", "ultrasonic", "weld_fume", "local_rules"]
    assert "fibre" in _codes(Method.POLISH)


def test_hazardous_lines_and_test_voltages_are_named() -> None:
    """70.7 V and 100 V lines are named hazardous, 48 V is not; a tested cable names its test."""
    assert "hazardous_live" in _codes(Method.WELD, line_v=70.7)
    assert "hazardous_live" in _codes(Method.WELD, line_v=100.0)
    assert "hazardous_live" not in _codes(Method.SOLDER, line_v=48.0)
    assert "test_voltage" in _codes(Method.SOLDER, test_v=500.0)


def test_every_caution_names_the_public_rules_behind_it_and_the_last_defers() -> None:
    """Presses, blades, ultrasonics and fume each point to a public rule; the last defers."""
    job = Job(methods=tuple(Method), fluoropolymer=True, line_v=100.0, test_v=500.0)
    told = cautions(job)
    assert all(caution.rules for caution in told[:-1])
    assert told[-1].code == "local_rules"
    assert not told[-1].rules
    rules = {caution.code: caution.rules for caution in told}
    assert "1910.212" in rules["press"]
    assert "1910.217" in rules["press"]
    assert "1910.147" in rules["die_change"]
    assert "1910.95" in rules["ultrasonic"]
    assert "copper fume 0.1\u202fmg/m³" in rules["weld_fume"]
    assert "1910.1025" in rules["solder"]


def test_noise_is_allowed_half_as_long_for_each_five_decibels() -> None:
    """Five decibels halve the hours, and eight hours at a level are a dose of one."""
    assert allowed_noise_h(95.0) == allowed_noise_h(90.0) / 2
    assert mean_noise_level_db(dose_share=1.0) == 90.0
    for level_db in (90.0, 96.0, 103.0):
        dose_share = 8.0 / allowed_noise_h(level_db)
        assert abs(mean_noise_level_db(dose_share=dose_share) - level_db) < 0.01
    for refused in (0.0, float("nan")):
        with pytest.raises(BadValue):
            mean_noise_level_db(dose_share=refused)
    with pytest.raises(BadValue):
        allowed_noise_h(float("inf"))
