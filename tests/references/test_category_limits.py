"""Limits of data cabling by category against tables, formulae and what is remembered of them."""

from collections.abc import Callable
from itertools import starmap

from reelwright.core.signals.category import cable, cords, links
from reelwright.core.signals.category.cable import Category
from reelwright.core.signals.category.links import Link
from tests.references.harness import (
    Basis,
    ReferenceCheck,
    Within,
    absolute,
    at_most,
    exact,
    reference_test,
    relative,
)

_BOOK = "LAN Wiring (book), table 15.2, cable attenuation and NEXT limits of TIA-568-C"
_FORMULA = "formula of TIA-568 as a public module of category limits has it, worked out on paper"
_STANDARD = "ANSI/TIA-568.2-D"
_HARDWARE = "table of connecting hardware, insertion loss and NEXT (distributor's page)"
_TESTER = "cable tester manual, appendix C, page C-6, return-loss limits (maker withheld)"
_CABLE, _LINKS, _CORDS = (f"core.signals.category.{name}" for name in ("cable", "links", "cords"))
_CATEGORIES = {"5e": Category.FIVE_E, "6": Category.SIX, "6A": Category.SIX_A}
_LINKS_BY_NAME = {"ch": Link.CHANNEL, "pe": Link.PERMANENT_LINK}

_PRINTED = absolute(0.06, because="the table prints one decimal")
_TWO_PLACES = absolute(0.05, because="as the value is stated: the formula to two places")
_TENTH = absolute(0.1, because="the tables are reproduced to 0.1 dB by cable and connections")


def _check(  # noqa: PLR0917 - one row of a table, in the order it is read
    name: str,
    module: str,
    quantity: str,
    source: str,
    basis: Basis,
    expected: float,
    unit: str,
    within: Within,
    ours: Callable[[], float],
) -> ReferenceCheck:
    return ReferenceCheck(
        id=f"tp.{name}",
        module=module,
        quantity=quantity,
        source=source,
        basis=basis,
        expected=expected,
        unit=unit,
        within=within,
        ours=ours,
    )


def _loss(category: str, megahertz: float, expected: float) -> ReferenceCheck:
    seen = category == "5e"
    return _check(
        f"il.{category}.{megahertz:g}", _CABLE,
        f"insertion loss of 100 m of category {category} cable at {megahertz:g} MHz",
        _BOOK if seen else _FORMULA, Basis.SEEN if seen else Basis.COMPUTED, expected, "dB",
        _PRINTED if seen else _TWO_PLACES,
        lambda: float(cable.insertion_loss_db(_CATEGORIES[category], megahertz * 1e6)),
    )  # fmt: skip


def _near(category: str, megahertz: float, expected: float) -> ReferenceCheck:
    seen = category == "5e"
    return _check(
        f"next.{category}.{megahertz:g}", _CABLE,
        f"NEXT loss of category {category} cable at {megahertz:g} MHz",
        _BOOK if seen else _FORMULA, Basis.SEEN if seen else Basis.COMPUTED, expected, "dB",
        _PRINTED if seen else _TWO_PLACES,
        lambda: float(cable.near_crosstalk_db(_CATEGORIES[category], megahertz * 1e6)),
    )  # fmt: skip


def _echo(megahertz: float, expected: float) -> ReferenceCheck:
    return _check(
        f"rl.{megahertz:g}", _CABLE, f"return loss of cable at {megahertz:g} MHz", _FORMULA,
        Basis.COMPUTED, expected, "dB", _TWO_PLACES,
        lambda: float(cable.return_loss_db(Category.SIX_A, megahertz * 1e6)),
    )  # fmt: skip


def _delay(megahertz: float, expected: float) -> ReferenceCheck:
    return _check(
        f"delay.{megahertz:g}", _CABLE, f"longest delay of 100 m of cable at {megahertz:g} MHz",
        "534 + 36/√f ns: ANSI/TIA-568.2-D, ISO/IEC 11801-1", Basis.MEMORY, expected, "ns",
        relative(2e-5, because="two decimals are given"),
        lambda: 1e9 * float(cable.delay_s(Category.SIX_A, megahertz * 1e6)),
    )  # fmt: skip


def _connection(kind: str, category: str, megahertz: float, expected: float) -> ReferenceCheck:
    loss = kind == "il"
    of = links.connection_loss_db if loss else links.connection_crosstalk_db
    return _check(
        f"conn.{kind}.{category}.{megahertz:g}", _LINKS,
        f"{'loss' if loss else 'NEXT loss'} of a category {category} connection at "
        f"{megahertz:g} MHz",
        _HARDWARE, Basis.SEEN, expected, "dB",
        absolute(0.005, because="two decimals are printed") if loss else _PRINTED,
        lambda: float(of(_CATEGORIES[category], megahertz * 1e6)),
    )  # fmt: skip


def _link(kind: str, category: str, link: str, megahertz: float, expected: float) -> ReferenceCheck:
    words, of = {
        "il": ("insertion loss", links.insertion_loss_db),
        "next": ("NEXT loss", links.near_crosstalk_db),
        "rl": ("return loss", links.return_loss_db),
    }[kind]
    seen = kind == "rl"
    return _check(
        f"ch.{kind}.{category}.{link}.{megahertz:g}", _LINKS,
        f"{words} of a category {category} {_LINKS_BY_NAME[link]} at {megahertz:g} MHz",
        _TESTER if seen else f"{_STANDARD}, tables", Basis.SEEN if seen else Basis.MEMORY,
        expected, "dB",
        absolute(0.07, because="the manual prints one decimal, and rounds some twice")
        if seen else _TENTH,
        lambda: float(of(_CATEGORIES[category], _LINKS_BY_NAME[link], megahertz * 1e6)),
    )  # fmt: skip


def _cord(horizontal_m: float, expected: float) -> ReferenceCheck:
    return _check(
        f"mutoa.{horizontal_m:g}", _CORDS,
        f"work-area cord at {horizontal_m:g} m of horizontal cable and 5 m at the rack, 24 AWG",
        "ANSI/TIA-568.0-D, table for multi-user outlets", Basis.MEMORY, expected, "m",
        absolute(0.9, because="the table rounds down to whole metres"),
        lambda: cords.work_cord_m(horizontal_m=horizontal_m, rack_cords_m=5.0),
    )  # fmt: skip


def _on_paper(  # noqa: PLR0917 - as _check
    name: str,
    quantity: str,
    basis: Basis,
    expected: float,
    ours: Callable[[], float],
    source: str = _STANDARD,
) -> ReferenceCheck:
    return _check(
        name, _CABLE, quantity, f"{source}, the formula at one frequency, worked out on paper",
        basis, expected, "dB", absolute(0.001, because="three decimals are worked out"), ours,
    )  # fmt: skip


_LOSSES = (
    ("5e", 1, 2.0), ("5e", 4, 4.1), ("5e", 16, 8.2), ("5e", 20, 9.3), ("5e", 62.5, 17.0),
    ("6", 4, 3.78), ("6", 10, 5.95), ("6", 16, 7.55), ("6", 20, 8.47), ("6", 31.25, 10.67),
    ("6", 250, 32.85), ("6A", 16, 7.49), ("6A", 20, 8.38), ("6A", 31.25, 10.5),
    ("6A", 62.5, 14.99), ("6A", 100, 19.13), ("6A", 250, 31.07),
)  # fmt: skip
_NEARS = (
    ("5e", 4, 56.3), ("5e", 10, 50.3), ("5e", 16, 47.2), ("5e", 20, 45.8), ("5e", 31.25, 42.9),
    ("5e", 100, 35.3), ("6", 4, 65.27), ("6", 16, 56.24), ("6", 20, 54.78), ("6", 62.5, 47.36),
    ("6", 100, 44.3), ("6", 250, 38.33), ("6A", 4, 65.27), ("6A", 16, 56.24),
    ("6A", 31.25, 51.88), ("6A", 62.5, 47.36), ("6A", 100, 44.3), ("6A", 250, 38.33),
    ("6A", 500, 33.82),
)  # fmt: skip
_ECHOES = ((1, 20.0), (4, 23.01), (16, 25.0), (62.5, 21.54), (100, 20.11), (500, 15.21))
_DELAYS = ((4, 552.0), (10, 545.38), (20, 542.05), (31.25, 540.44), (500, 535.61))
_CONNECTIONS = (
    ("il", "6", 100, 0.2), ("il", "6", 62.5, 0.16), ("il", "6", 31.25, 0.11),
    ("next", "5e", 31.25, 53.1), ("next", "5e", 16, 58.9), ("next", "6", 100, 54.0),
    ("next", "6", 31.25, 64.1),
)  # fmt: skip
_LINK_ROWS = (
    ("il", "5e", "ch", 100, 24.0), ("il", "5e", "pe", 100, 21.0), ("il", "6", "ch", 100, 21.3),
    ("il", "6", "ch", 250, 35.9), ("il", "6", "pe", 100, 18.6), ("il", "6", "pe", 250, 31.1),
    ("il", "6A", "ch", 100, 20.9), ("il", "6A", "ch", 500, 49.3),
    ("next", "5e", "ch", 100, 30.1), ("next", "5e", "pe", 100, 32.3),
    ("next", "6", "ch", 100, 39.9), ("next", "6", "ch", 250, 33.1),
    ("next", "6", "pe", 100, 41.8), ("next", "6", "pe", 250, 35.3),
    ("rl", "5e", "ch", 20, 17.0), ("rl", "5e", "ch", 25, 16.03), ("rl", "5e", "ch", 100, 10.01),
    ("rl", "6", "ch", 16, 18.0), ("rl", "6", "ch", 20, 17.5), ("rl", "6", "ch", 31.25, 16.5),
    ("rl", "6", "ch", 62.5, 14.1), ("rl", "6", "ch", 100, 12.0), ("rl", "6", "ch", 250, 8.0),
    ("rl", "6", "pe", 4, 21.0), ("rl", "6", "pe", 16, 20.0), ("rl", "6", "pe", 62.5, 16.1),
    ("rl", "6", "pe", 100, 14.0),
)  # fmt: skip
_WHOLE = exact(because="a limit that is stated as this number")

CHECKS = (
    *starmap(_loss, _LOSSES),
    *starmap(_near, _NEARS),
    *starmap(_echo, _ECHOES),
    *starmap(_delay, _DELAYS),
    *starmap(_connection, _CONNECTIONS),
    *starmap(_link, _LINK_ROWS),
    _on_paper("il.5e", "loss of 100 m of category 5e, 1.967√f + 0.023 f + 0.05/√f at 25 MHz",
              Basis.COMPUTED, 10.42,
              lambda: float(cable.insertion_loss_db(Category.FIVE_E, 25e6)), _FORMULA),
    _on_paper("il.6", "loss of 100 m of category 6, 1.808√f + 0.017 f + 0.2/√f at 25 MHz",
              Basis.COMPUTED, 9.505,
              lambda: float(cable.insertion_loss_db(Category.SIX, 25e6)), _FORMULA),
    _on_paper("il.6A", "loss of 100 m of category 6A, 1.82√f + 0.0091 f + 0.25/√f at 400 MHz",
              Basis.COMPUTED, 40.0525,
              lambda: float(cable.insertion_loss_db(Category.SIX_A, 400e6)), _FORMULA),
    _on_paper("next", "NEXT loss of category 6, 44.3 − 15 log(f/100) at 10 MHz",
              Basis.COMPUTED, 59.3,
              lambda: float(cable.near_crosstalk_db(Category.SIX, 10e6)), _FORMULA),
    _on_paper("rl", "return loss of cable, 25 − 7 log(f/20) at 200 MHz", Basis.COMPUTED, 18.0,
              lambda: float(cable.return_loss_db(Category.SIX, 200e6)), _FORMULA),
    _on_paper("psnext.5e", "power-sum NEXT of category 5e, 32.3 − 15 log(f/100) at 10 MHz",
              Basis.MEMORY, 47.3,
              lambda: float(cable.near_crosstalk_sum_db(Category.FIVE_E, 10e6))),
    _on_paper("psnext.6", "power-sum NEXT of category 6, 42.3 − 15 log(f/100) at 10 MHz",
              Basis.MEMORY, 57.3, lambda: float(cable.near_crosstalk_sum_db(Category.SIX, 10e6))),
    _on_paper("acrf.6", "ACR-F of category 6, 27.8 − 20 log(f/100) at 10 MHz",
              Basis.MEMORY, 47.8, lambda: float(cable.far_crosstalk_db(Category.SIX, 10e6))),
    _on_paper("psacrf.5e", "power-sum ACR-F of category 5e, 20.8 − 20 log(f/100) at 10 MHz",
              Basis.MEMORY, 40.8,
              lambda: float(cable.far_crosstalk_sum_db(Category.FIVE_E, 10e6))),
    _on_paper("psacrf.6", "power-sum ACR-F of category 6, 24.8 − 20 log(f/100) at 10 MHz",
              Basis.MEMORY, 44.8, lambda: float(cable.far_crosstalk_sum_db(Category.SIX, 10e6))),
    _check("ch.next.6A.500", _LINKS, "NEXT loss of a category 6A channel at 500 MHz",
           "31 − 27.15 log(f/330) above 330 MHz, ANSI/TIA-568.2-D", Basis.MEMORY, 26.1, "dB",
           _TENTH,
           lambda: float(links.near_crosstalk_db(Category.SIX_A, Link.CHANNEL, 500e6))),
    _check("skew.cable", _CABLE, "delay skew allowed in 100 m of cable", _STANDARD, Basis.MEMORY,
           45.0, "ns", relative(1e-12, because="a whole number, but for a float's rounding"),
           lambda: cable.SKEW_S * 1e9),
    _check("skew.ch", _LINKS, "delay skew allowed in a channel",
           "LAN Wiring (book), tables 5.1 and 5.3", Basis.SEEN, 50.0, "ns",
           relative(1e-12, because="a whole number, but for a float's rounding"),
           lambda: links.CHANNEL_SKEW_S * 1e9),
    _check("temp", _CORDS, "loss allowed more for each °C above 20 °C, category 5e", _BOOK,
           Basis.SEEN, 0.4, "%",
           relative(1e-9, because="one decimal is printed, and the formula has it as it is"),
           lambda: 100 * float(cords.warmth_factor(21.0, screened=False) - 1)),
    _check("cord.20", _CORDS, "loss allowed more in stranded cords, 24 AWG",
           "page on horizontal distances of copper links in open offices", Basis.SEEN, 20.0, "%",
           _WHOLE, lambda: 100 * cords.STRANDED_MORE),
    _check("len.channel", _LINKS, "length of a channel",
           "article on the longest copper cabling, note on EN 50173", Basis.SEEN, 100.0, "m",
           _WHOLE, lambda: links.CHANNEL_M),
    _check("len.link", _LINKS, "length of a permanent link",
           "article on the longest copper cabling, note on EN 50173", Basis.SEEN, 90.0, "m",
           _WHOLE, lambda: links.PERMANENT_LINK_M),
    *starmap(_cord, ((90, 5.0), (80, 13.0), (75, 17.0))),
    _check("rdc", _CABLE, "resistance allowed in one horizontal conductor", _STANDARD,
           Basis.MEMORY, 9.38, "Ω/100 m",
           relative(1e-12, because="as stated, but for a float's rounding"),
           lambda: 100 * cable.CONDUCTOR_OHM_PER_M),
    _check("loop.channel", _LINKS, "loop resistance allowed in a channel",
           "ISO/IEC 11801-1; ANSI/TIA-568.2-D", Basis.MEMORY, 25.0, "Ω", _WHOLE,
           lambda: Link.CHANNEL.loop_ohm),
    _check("loop.link", _LINKS, "loop resistance allowed in a permanent link",
           "ISO/IEC 11801-1; ANSI/TIA-568.2-D", Basis.MEMORY, 21.0, "Ω", _WHOLE,
           lambda: Link.PERMANENT_LINK.loop_ohm),
    _check("iso.E.100", _LINKS, "insertion loss of a category 6 channel, within ISO class E",
           "1.05(1.82√f + 0.0169 f + 0.25/√f) + 4 × 0.02√f at 100 MHz, ISO/IEC 11801-1",
           Basis.MEMORY, 21.7, "dB",
           at_most(but_within=0.02, because="ours is the formula of TIA-568, the stricter one"),
           lambda: float(links.insertion_loss_db(Category.SIX, Link.CHANNEL, 100e6))),
)  # fmt: skip
test_category_limits = reference_test(CHECKS)
