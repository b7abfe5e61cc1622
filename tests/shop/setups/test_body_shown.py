"""What page and sheet say of an end's body: one sentence, computed or why not."""

from dataclasses import replace

from reelwright.core.parts.cable import LossPoint
from reelwright.core.parts.connector import BodySection, Connector
from reelwright.core.verdicts import Basis, Source
from reelwright.demo.cables import coax_entries
from reelwright.demo.connectors import connector_entries
from reelwright.shop.setups.paper import set_up_paper
from reelwright.shop.setups.shown.body import body_shown
from tests.small_world import CABLE, CONNECTOR, TODAY, SmallWorld

VID_60 = next(each.cable for each in coax_entries() if each.cable.code == "VID-60")
BNC_60 = next(each.connector for each in connector_entries() if each.connector.code == "BNC-60")
AT_3_GHZ = replace(
    VID_60,
    sheet=replace(
        VID_60.sheet,
        impedance_ohm=75.0,
        loss_points=(LossPoint(frequency_hz=3e9, loss_db_per_m=0.36),),
    ),
)


def plug(impedance_ohm: float, delay_ps: float) -> Connector:
    """The plug, with a body whose drawing is named."""
    source = Source(text="drawing 7", basis=Basis.DATA_SHEET)
    return replace(
        BNC_60,
        body=BodySection(impedance_ohm=impedance_ohm, delay_s=delay_ps * 1e-12, source=source),
    )


def told(connector: Connector) -> str:
    """The sentence, without its narrow spaces."""
    return body_shown(AT_3_GHZ, connector).replace("\u202f", " ")


def test_the_figure_comes_with_its_frequency_and_where_that_comes_from() -> None:
    """50 Ω over 1/24 ns: an eighth of a wave at 3 GHz, 10.976 dB by hand."""
    sentence = told(plug(50.0, 1000 / 24))
    assert "The body of BNC-60, 50 Ω over 41.7 ps" in sentence
    assert "between two lines of 75 Ω, a return loss of 11.0 dB at 3.000 GHz" in sentence
    assert "the highest frequency at which the sheet of VID-60 gives a loss" in sentence
    assert "no class of signal is recorded" in sentence
    assert "drawing 7 (data sheet)" in sentence
    assert "The least below it" not in sentence


def test_a_body_longer_than_a_quarter_wave_tells_where_it_is_worst() -> None:
    """50 Ω over 1/6 ns is half a wave at 3 GHz and unseen; at 1.5 GHz 8.299 dB come back."""
    sentence = told(plug(50.0, 1000 / 6))
    assert "a return loss of more than 60 dB at 3.000 GHz" in sentence
    assert "The least below it is 8.3 dB at 1.500 GHz, where the body is a quarter wave" in sentence


def test_what_is_not_stated_is_said() -> None:
    """Without a body it is "not computed"; a cable without stated impedance has no line at all."""
    assert told(replace(BNC_60, body=None)) == (
        "Return loss of the body of BNC-60 alone: not computed: the drawing gives no body section."
    )
    bare = replace(AT_3_GHZ, sheet=replace(AT_3_GHZ.sheet, impedance_ohm=None))
    assert body_shown(bare, plug(50.0, 40.0)) == ""


def test_the_sheet_says_it(world: SmallWorld, drafted: int) -> None:
    """Paper and page have the same sentence."""
    assert set_up_paper("S-1", on=TODAY, gauges=()).body_told == body_shown(CABLE, CONNECTOR)
    assert "no body section" in body_shown(CABLE, CONNECTOR)
