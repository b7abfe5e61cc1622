"""What a category allows a whole channel, and the permanent link inside it.

A channel: 90 m of horizontal cable, 10 m of cords, four connections. A permanent link: the 90 m
and the connections at their ends, with one more allowed between (three in all). From memory unless
said otherwise: ANSI/TIA-568.2-D, ISO/IEC 11801-1.
"""

import enum

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.signals.category import cable
from reelwright.core.signals.category.cable import Category, megahertz
from reelwright.core.verdicts import Basis, Source

CHANNEL_M = 100.0
"""A whole channel [m]. As an article on copper cabling lengths gives it."""

PERMANENT_LINK_M = 90.0
"""The permanent link inside it [m]. As the same article gives it."""

CHANNEL_SKEW_S = 50e-9
"""Most that the delays of two pairs of a channel may differ [s]. As a book on wiring gives it."""

CONNECTION_DELAY_S = 2.5e-9
"""Delay [s] allowed for one connection. From memory."""

CHANNEL_UNBALANCE_FRACTION = 0.03
"""Most that both conductors of a pair may differ in a channel [1] of the pair's resistance..."""

CHANNEL_UNBALANCE_OHM = 0.2
"""...or this [Ω], whichever is more. From memory."""

CHANNEL_SOURCE = Source(
    text=(
        "channel of TIA-568.2-D: cable as its category, 10 m of cords at a fifth more, four "
        "connections"
    ),
    basis=Basis.FROM_MEMORY,
)
"""Where the limits of a channel come from."""

# TIA-568.2-D states more for category 6 than cable and connections add up to: the deviation of
# the loss where parts of different impedance meet.
_DEVIATION = 0.0003
_SPLIT_6A_HZ = 330e6


class Link(enum.StrEnum):
    """What the limits are for."""

    CHANNEL = "channel"
    PERMANENT_LINK = "permanent link"

    @property
    def connections(self) -> int:
        """How many connections it may hold."""
        return 4 if self is Link.CHANNEL else 3

    @property
    def loop_ohm(self) -> float:
        """Most that one pair may have out and back [Ω]."""
        return 25.0 if self is Link.CHANNEL else 21.0


def connection_loss_db(category: Category, frequency_hz: npt.ArrayLike) -> FloatArray:
    """Return the most that one connection may lose [dB], shape of ``frequency_hz`` [Hz].

    0.04·√f for category 5e, 0.02·√f for 6 and 6A, f in MHz: a distributor's table of connecting
    hardware (6A from memory). The least of 0.1 dB that tables print is left out: it is where
    instruments end, and a channel's own limit has it not.
    """
    root = 0.04 if category is Category.FIVE_E else 0.02
    loss: FloatArray = root * np.sqrt(megahertz(category, frequency_hz))
    return loss


def connection_crosstalk_db(category: Category, frequency_hz: npt.ArrayLike) -> FloatArray:
    """Return the least near-end crosstalk loss [dB] of one connection, shape of [Hz].

    43 or 54 − 20 log(f/100): the same table. 6A falls twice as fast above 250 MHz, from memory.
    """
    f = megahertz(category, frequency_hz)
    start = 43.0 if category is Category.FIVE_E else 54.0
    slow = start - 20 * np.log10(f / 100)
    if category is not Category.SIX_A:
        return slow
    fast: FloatArray = np.where(f <= 250, slow, 46.04 - 40 * np.log10(f / 250))
    return fast


def insertion_loss_db(category: Category, link: Link, frequency_hz: npt.ArrayLike) -> FloatArray:
    """Return the most that a channel or a permanent link may lose [dB], shape of [Hz].

    Cable (1.02 times 100 m, since a fifth more is lost in 10 m of cords; 1.05 times for 6A, whose
    cords may lose half as much again; 0.9 for the link) and connections; for category 6 besides
    0.0003·f^1.5 (half of it in the link) for the deviation of the loss.
    """
    f = megahertz(category, frequency_hz)
    whole = link is Link.CHANNEL
    parts = (1.05 if category is Category.SIX_A else 1.02) if whole else 0.9
    loss = parts * cable.insertion_loss_db(category, frequency_hz)
    loss = loss + link.connections * connection_loss_db(category, frequency_hz)
    if category is Category.SIX:
        loss = loss + (_DEVIATION if whole else _DEVIATION / 2) * f**1.5
    return loss


def near_crosstalk_db(category: Category, link: Link, frequency_hz: npt.ArrayLike) -> FloatArray:
    """Return the least near-end crosstalk loss [dB] pair to pair, shape of ``frequency_hz`` [Hz].

    The voltages of the cable and of the connections near the end add: two in a channel, one in a
    link. For 6A above 330 MHz 31 − 27.15 log(f/330) in a channel instead; its link is not known
    to us there, and BadValue is raised.
    """
    f = megahertz(category, frequency_hz)
    near = 2 if link is Link.CHANNEL else 1
    voltage = 10 ** (-cable.near_crosstalk_db(category, frequency_hz) / 20)
    voltage = voltage + near * 10 ** (-connection_crosstalk_db(category, frequency_hz) / 20)
    crosstalk: FloatArray = -20 * np.log10(voltage)
    above = f * 1e6 > _SPLIT_6A_HZ
    if category is not Category.SIX_A or not above.any():
        return crosstalk
    if link is Link.PERMANENT_LINK:
        raise BadValue(
            owner="permanent link of category 6A",
            field="frequency_hz",
            value=float(f.max() * 1e6),
            accepted=f"up to {_SPLIT_6A_HZ:g}, where its crosstalk is known to us",
        )
    return np.where(above, 31 - 27.15 * np.log10(f / 330), crosstalk)


def return_loss_db(category: Category, link: Link, frequency_hz: npt.ArrayLike) -> FloatArray:
    """Return the least return loss [dB], shape of ``frequency_hz`` [Hz].

    Category 5e: 17 to 20 MHz, then falling by 10 dB a decade (link: 2 dB more). 6 and 6A: 19 to
    10 MHz, 24 − 5 log f to 40 MHz, 32 − 10 log f above, 6 dB from 398.1 MHz (link: 2 dB more, and
    21 + 4 log(f/3) below 3 MHz). Values of 5e and 6 as a tester's manual prints them.
    """
    f = megahertz(category, frequency_hz)
    more = 0.0 if link is Link.CHANNEL else 2.0
    if category is Category.FIVE_E:
        least: FloatArray = 17 + more - 10 * np.log10(np.maximum(f, 20) / 20)
        return least
    fall = np.where(
        f < 10,
        19 + more,
        np.where(f < 40, 24 + more - 5 * np.log10(f), 32 + more - 10 * np.log10(f)),
    )
    if link is Link.PERMANENT_LINK:
        fall = np.where(f < 3, 21 + 4 * np.log10(f / 3), fall)
    return np.maximum(fall, 6.0 + more)


def delay_s(category: Category, link: Link, frequency_hz: npt.ArrayLike) -> FloatArray:
    """Return the longest delay [s]: the cable's of that length and 2.5 ns for each connection."""
    share = 1.0 if link is Link.CHANNEL else PERMANENT_LINK_M / CHANNEL_M
    longest: FloatArray = (
        share * cable.delay_s(category, frequency_hz) + link.connections * CONNECTION_DELAY_S
    )
    return longest


def unbalance_limit_ohm(loop_ohm: float) -> float:
    """Return how much both conductors of a pair may differ [Ω] in a channel; of its loop [Ω].

    3 % of what both have together, or 0.2 Ω where that is more. From memory.
    """
    if loop_ohm < 0:
        raise BadValue(
            owner="unbalance_limit_ohm", field="loop_ohm", value=loop_ohm, accepted="0 or more"
        )
    return max(CHANNEL_UNBALANCE_FRACTION * loop_ohm, CHANNEL_UNBALANCE_OHM)
