"""The part of a page about cavities."""

import pytest

from reelwright.core.ends.dies.cavities import Cavity, CavityUse
from reelwright.core.ends.dies.press import ForceKnown, Press
from reelwright.demo.cables import coax_entries
from reelwright.demo.connectors import connector_entries
from reelwright.demo.tools import CAVITIES
from reelwright.shop.setups.shown.cavities import CrimpView, crimp_views

CABLES = {entry.cable.code: entry.cable for entry in coax_entries()}
CONNECTORS = {entry.connector.code: entry.connector for entry in connector_entries()}
SHOP = tuple(
    Cavity(
        code=entry.code,
        use=CavityUse(entry.use),
        engraved_m=float(entry.across_flats_mm) / 1e3,
        reading=None,
        closings_count=entry.closings,
        due_count=entry.service_after,
        in_service=True,
    )
    for entry in CAVITIES
)
BENCH = Press(code="PR-1", force_n=29_000.0, known=ForceKnown.STATED)


def views(
    cable: str,
    connector: str,
    *,
    cavities: tuple[Cavity, ...] = SHOP,
    machines: tuple[Press, ...] = (BENCH,),
    pin_m: float | None = None,
) -> tuple[CrimpView, ...]:
    """The crimps of a pair of the demo workshop."""
    return crimp_views(
        CABLES[cable],
        CONNECTORS[connector],
        cavities=cavities,
        machines=machines,
        pin_m=pin_m,
        ferrule_m=None,
    )


def test_a_pair_without_a_set_up_is_told_which_cavity_to_begin_with() -> None:
    """The best is drawn, and its height and force are told, with the metal that was assumed."""
    pin, ferrule = views("VID-70P", "BNC-70P")
    assert (pin.shown, ferrule.shown) == ("P-1.60", "F-7.36")
    assert "F-7.36 is the only one in service" in ferrule.why
    assert [row.outcome for row in ferrule.rows] == ["good", "bad", "bad"]
    told = " ".join(sentence for _, sentence in ferrule.notes)
    assert "Height to measure over the flats: 7.375" in told
    assert "PR-1 has 29.0\u202fkN" in told
    assert "Brass is assumed" in told
    assert ferrule.svg.startswith("<svg")


def test_the_cavity_that_the_set_up_names_is_the_one_drawn() -> None:
    """Even where it does not fit, so that the sheet shows what it would do."""
    pin, _ = views("VID-70", "BNC-70", pin_m=1.73e-3)
    assert pin.shown == "P-1.73"
    assert [row.code for row in pin.rows if row.chosen] == ["P-1.73"]
    assert "Height" not in " ".join(sentence for _, sentence in pin.notes)


@pytest.mark.parametrize(
    ("cavities", "told"),
    [((), "No pin cavity is in service"), (SHOP[2:3], "")],
    ids=["none", "wrong"],
)
def test_where_none_fits_it_says_what_to_get(cavities: tuple[Cavity, ...], told: str) -> None:
    """No cavity, or only a wrong one: the window and the usual width inside it."""
    pin, _ = views("VID-70", "BNC-70", cavities=cavities)
    assert told in pin.why_not
    assert "None in service fits" in pin.why
    assert "0.063" in pin.why


def test_what_is_not_known_is_said_and_not_drawn() -> None:
    """A bag with two pins gives no barrel; a compressed end has no hexagon; no press, no force."""
    pin, _ = views("VID-60", "RCA-60")
    assert "does not give the barrel" in pin.why_not
    assert (pin.svg, pin.rows) == ("", ())
    assert views("VID-70", "F-70") == ()
    silent, _ = views("VID-70", "BNC-70", machines=())
    assert "kN" not in " ".join(sentence for _, sentence in silent.notes)
