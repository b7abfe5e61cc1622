"""What conductors and contacts can carry."""

from dataclasses import replace

from reelwright.core.ends.fit.logic import judge_logic
from reelwright.core.parts.needs import SignalNeeds
from tests.ends_world import AUD_BP, BNC_60, PHO_61, RCA_60, SPK_14, TRS, VID_60, XLR_F, XLR_M

MICROPHONE = SignalNeeds(legs=2, balanced=True, phantom_power=True, screen=True, impedance_ohm=None)
VIDEO = SignalNeeds(legs=1, balanced=False, phantom_power=False, screen=True, impedance_ohm=75.0)


def test_a_balanced_phantom_microphone_on_coax_to_phono_has_three_reasons_against() -> None:
    """Coax has one conductor and a screen, phantom needs two legs, the phono is unbalanced."""
    reasons = judge_logic(cable=VID_60, connector_a=XLR_F, connector_b=RCA_60, needs=MICROPHONE)
    assert [reason.code for reason in reasons] == [
        "cable_cannot_be_balanced",
        "phantom_needs_two_legs",
        "connector_unbalanced",
    ]
    assert "one conductor and a screen" in reasons[0].sentence
    assert "second leg" in reasons[1].sentence
    assert "48\u202fV on its input" in reasons[2].sentence


def test_the_same_microphone_on_a_pair_between_balanced_ends_has_none() -> None:
    """A screened pair between balanced connectors carries it: nothing against."""
    for other in (XLR_M, TRS):
        assert (
            judge_logic(cable=AUD_BP, connector_a=XLR_F, connector_b=other, needs=MICROPHONE) == ()
        )


def test_a_good_cable_does_not_excuse_an_unbalanced_end() -> None:
    """The pair alone is right; the phono at its end is the one reason left."""
    (reason,) = judge_logic(cable=AUD_BP, connector_a=XLR_F, connector_b=RCA_60, needs=MICROPHONE)
    assert reason.code == "connector_unbalanced"


def test_video_on_coax_has_none_against() -> None:
    """75 Ω coax with 75 Ω ends carries serial video; the same connector twice is judged once."""
    assert judge_logic(cable=VID_60, connector_a=BNC_60, connector_b=BNC_60, needs=VIDEO) == ()


def test_impedance_classes_are_held_apart() -> None:
    """A 99 Ω cable and a 50 Ω connector are both refused where the signal needs 75 Ω, once each."""
    fifty = replace(BNC_60, impedance_ohm=50.0)
    reasons = judge_logic(cable=PHO_61, connector_a=fifty, connector_b=fifty, needs=VIDEO)
    assert [reason.code for reason in reasons] == [
        "cable_of_other_impedance",
        "connector_of_other_impedance",
    ]


def test_a_missing_screen_is_a_reason() -> None:
    """A loudspeaker pair has no screen: a microphone on it is refused for that."""
    reasons = judge_logic(cable=SPK_14, connector_a=XLR_F, connector_b=XLR_M, needs=MICROPHONE)
    assert [reason.code for reason in reasons] == ["no_screen"]


def test_too_few_conductors_and_contacts_are_counted() -> None:
    """Two legs that need no balance are still refused on one conductor and on one contact."""
    needs = SignalNeeds(
        legs=2, balanced=False, phantom_power=False, screen=False, impedance_ohm=None
    )
    reasons = judge_logic(cable=VID_60, connector_a=RCA_60, connector_b=XLR_M, needs=needs)
    assert [reason.code for reason in reasons] == ["too_few_conductors", "too_few_contacts"]
