"""Words for what comes from an antenna, a head or a television outlet."""

import re
from collections.abc import Callable

from reelwright.core.physics.signal_level import dbuv_of_dbmv
from reelwright.core.signals import cable_television as cable
from reelwright.core.signals import radio_feed_50 as feed
from reelwright.core.signals.read_video import decimal
from reelwright.core.signals.reading import SignalReading, asking, reading
from reelwright.core.signals.satellite_if import SatelliteIf
from reelwright.core.signals.supply_drop import Supply, SupplyStep
from reelwright.core.signals.terrestrial_antenna import (
    SERVICE_BANDS,
    Service,
    TerrestrialAntenna,
)
from reelwright.core.verdicts import Basis, Source

_NUMBER = r"(\d+(?:[.,]\d+)?)"
_LEVEL = re.compile(r"(?P<need>\bneeds?\s+|\bat least\s+)?(?P<figure>[-\u2212]?\d+(?:[.,]\d+)?)"
                    r"\s*db(?P<over>[uµμ]v|mv)\b")  # fmt: skip
_FREQUENCY = re.compile(rf"{_NUMBER}\s*(mhz|ghz)\b")
_ALLOWED = re.compile(rf"{_NUMBER}\s*db(?![a-zµμ])")
_CURRENT = re.compile(rf"{_NUMBER}\s*(ma|amps?|amperes?|a(?=\s*(?:[,.;)]|$)))(?![a-z])")
_NEEDED_VOLTS = re.compile(rf"(?:needs?|at least|minimum|min\.?)\s+{_NUMBER}\s*v(?:olts?)?\b")
_VOLTS = re.compile(rf"{_NUMBER}\s*v(?:olts?)?\b")

RADIO_MICROPHONE = (
    r"\b(wireless|radio)\s+mic(rophone)?s?\b.*\b(antennas?|aerials?)\b"
    r"|\b(antennas?|aerials?)\b.*\b(wireless|radio)\s+mic(rophone)?s?\b"
)
POSITION = r"\bgps\b|\bgnss\b|\b(positioning|timing) (antennas?|aerials?|receivers?)\b"
SATELLITE = r"\bsatellite\b|\blnbs?\b"
ANTENNA = r"\bantennas?\b|\baerials?\b|\bterrestrial\b|\bover[- ]the[- ]air\b"
# "FM" alone is also the name of a station or of a studio.
TERRESTRIAL = (
    r"\bdvb-?t2?\b|\bdab\b"
    r"|\bfm\b(\W*$|.*\b(antennas?|aerials?|tuner|radio)\b)|\b(antennas?|aerials?|tuner)\b.*\bfm\b"
)
FIFTY_OHM = (
    r"^(?!.*\b(loud)?speakers?\b)(?!.*\bline (level|audio)\b)(?!.*\bunbalanced\b)"
    r".*\b50\s*-?(ohms?\b|ω|Ω)"
)
CABLE_TELEVISION = r"\bcable (tv|television)\b|\bcatv\b"

# The top of all bands that receivers for position and time use (from memory).
_POSITION_HZ = 1610e6
_LEVELS_QUESTION = "Several levels are named: which of them is that where the cable begins?"

Reader = Callable[[str, str], SignalReading]


def read_satellite(typed: str, text: str) -> SignalReading:
    """Return a satellite feed, with level and current of the head where they are in ``text``."""
    levels = _levels_dbuv(text)
    if len(levels) > 1:
        return asking(typed, _LEVELS_QUESTION)
    current_a = _current_a(text)
    if current_a == 0:
        return asking(typed, "How many milliamperes does the head take? It takes more than none.")
    return reading(
        typed,
        SatelliteIf(head_level_dbuv=levels[0] if levels else None, head_current_a=current_a),
    )


def read_terrestrial(typed: str, text: str) -> SignalReading:
    """Return a feed from an antenna with its service; ask where none or several are named."""
    services = [
        service
        for service, words in (
            (Service.FM, r"\bfm\b"),
            (Service.DAB, r"\bdab\b"),
            (Service.DVB_T2, r"\bdvb-?t2\b"),
            (Service.DVB_T, r"\bdvb-?t\b"),
        )
        if re.search(words, text)
    ]
    if not services:
        return ask_antenna(typed, text)
    assumed = []
    # The highest band loses most; of the two kinds of television the older wants more level.
    service = max(
        services,
        key=lambda each: (SERVICE_BANDS[each].high_hz, SERVICE_BANDS[each].least_dbuv),
    )
    if len(services) > 1:
        assumed.append(f"{service}, as it loses most of what was named")
    band = SERVICE_BANDS[service]
    highest_hz = _highest_hz(text)
    if highest_hz is None:
        highest_hz = band.high_hz
        if band.most_hz > band.high_hz:
            assumed.append(
                f"highest channel up to {highest_hz / 1e6:g}\u202fMHz, as none was stated"
            )
    if not band.low_hz < highest_hz <= band.most_hz:
        return asking(
            typed,
            f"For {service} up to which frequency: above {band.low_hz / 1e6:g} and up to "
            f"{band.most_hz / 1e6:g}\u202fMHz?",
        )
    levels = _levels_dbuv(text)
    if len(levels) > 1:
        return asking(typed, _LEVELS_QUESTION)
    supply = _supply(text, load="amplifier at the antenna")
    if isinstance(supply, str):
        return asking(typed, supply)
    return reading(
        typed,
        TerrestrialAntenna(
            service=service,
            highest_hz=highest_hz,
            level_dbuv=levels[0] if levels else None,
            mast_supply=supply,
            at_outlet=re.search(r"\boutlet\b|\bwall\b|\bsocket\b", text) is not None,
        ),
        *assumed,
    )


def ask_antenna(typed: str, text: str) -> SignalReading:
    """Ask what an antenna receives, since the levels differ by more than any cable loses."""
    del text
    return asking(
        typed,
        "What comes from the antenna: FM radio, DAB radio, television (DVB-T or DVB-T2), "
        "satellite, or is it a 50 ohm feed (radio microphones, positioning), and at which MHz?",
    )


def read_cable_television(typed: str, text: str) -> SignalReading:
    """Return cable television, with level, kind and highest channel where they are in ``text``.

    A level in dBmV is how the United States count, and their rule is then the one that holds.
    """
    levels = _levels_dbuv(text)
    if len(levels) > 1:
        return asking(typed, _LEVELS_QUESTION)
    channels, assumed = cable.Channels.DIGITAL, []
    if re.search(r"\bdbmv\b|\ddbmv\b|\bunited states\b|\bamerican?\b", text):
        channels = cable.Channels.UNITED_STATES
    elif re.search(r"\banalog(ue)?\b", text):
        channels = cable.Channels.ANALOGUE
    elif not re.search(r"\bdigital\b", text):
        assumed.append("digital channels, as nothing else was stated")
    highest_hz = _highest_hz(text) or cable.HIGHEST_CHANNEL_HZ
    if not cable.UNITED_STATES_LOWEST_HZ < highest_hz <= cable.HIGHEST_EVER_HZ:
        return asking(
            typed,
            "Up to which frequency do the channels go: above "
            f"{cable.UNITED_STATES_LOWEST_HZ / 1e6:g} and up to "
            f"{cable.HIGHEST_EVER_HZ / 1e6:g}\u202fMHz?",
        )
    return reading(
        typed,
        cable.CableTelevision(
            outlet_level_dbuv=levels[0] if levels else None,
            channels=channels,
            highest_hz=highest_hz,
        ),
        *assumed,
    )


def read_radio_microphone(typed: str, text: str) -> SignalReading:
    """Return the 50 Ω feed of a radio microphone's antenna; ask for its frequency."""
    return _feed(typed, text, what="radio microphone antenna", usual_hz=None)


def read_position(typed: str, text: str) -> SignalReading:
    """Return the 50 Ω feed of a receiver for position or time."""
    return _feed(typed, text, what="positioning antenna", usual_hz=_POSITION_HZ)


def read_fifty_ohm(typed: str, text: str) -> SignalReading:
    """Return any 50 Ω feed; ask for its frequency."""
    return _feed(typed, text, what="50\u202fΩ feed", usual_hz=None)


def _feed(typed: str, text: str, *, what: str, usual_hz: float | None) -> SignalReading:
    highest_hz = _highest_hz(text)
    assumed: tuple[str, ...] = ()
    if highest_hz is None and usual_hz is not None:
        highest_hz = usual_hz
        assumed = (f"up to {usual_hz / 1e6:g}\u202fMHz, as no frequency was stated",)
    if highest_hz is None or not feed.LOWEST_HZ <= highest_hz <= feed.HIGHEST_HZ:
        return asking(
            typed,
            "At which frequency does the 50 ohm feed work, in MHz (1 to 6000), and how much loss "
            "in dB may its cable have?",
        )
    supply = _supply(text, load="amplifier in the antenna")
    if isinstance(supply, str):
        return asking(typed, supply)
    allowed = [decimal(found[1]) for found in _ALLOWED.finditer(text)]
    if len(allowed) > 1 or 0 in allowed:
        return asking(typed, "How much loss may the cable have at most, in dB (one figure)?")
    return reading(
        typed,
        feed.RadioFeed50(
            what=what,
            frequency_hz=highest_hz,
            allowed_db=allowed[0] if allowed else None,
            antenna_supply=supply,
        ),
        *assumed,
    )


def _levels_dbuv(text: str) -> tuple[float, ...]:
    """The levels named, each once, in dBµV; what something "needs" is not where a cable begins."""
    found = []
    for each in _LEVEL.finditer(text):
        if each["need"] is None:
            figure = decimal(each["figure"].replace("\u2212", "-"))
            found.append(dbuv_of_dbmv(figure) if each["over"] == "mv" else figure)
    return tuple(dict.fromkeys(found))


def _highest_hz(text: str) -> float | None:
    found = [
        decimal(each[1]) * (1e9 if each[2] == "ghz" else 1e6) for each in _FREQUENCY.finditer(text)
    ]
    return max(found, default=None)


def _current_a(text: str) -> float | None:
    found = _CURRENT.search(text)
    if found is None:
        return None
    return decimal(found[1]) * (1e-3 if found[2] == "ma" else 1.0)


def _supply(text: str, *, load: str) -> Supply | str | None:
    """The supply over the cable, what to ask about it, or None where none is spoken of."""
    needed = _NEEDED_VOLTS.search(text)
    volts = [decimal(each[1]) for each in _VOLTS.finditer(_NEEDED_VOLTS.sub(" ", text))]
    current_a = _current_a(text)
    if not volts and needed is None and current_a is None:
        spoken_of = re.search(r"\bmast-?\s?head\b|\bmasthead\b|\bpowered\b|\bamplifier\b|\bdc\b",
                              text)  # fmt: skip
        unfed = re.search(r"\b(no|without)\b", text)
        return _SUPPLY_QUESTION if spoken_of and not unfed else None
    if len(set(volts)) != 1 or volts[0] == 0 or current_a == 0:
        return _SUPPLY_QUESTION
    needed_v = None if needed is None else decimal(needed[1])
    if needed_v is not None and not 0 < needed_v <= volts[0]:
        return _SUPPLY_QUESTION
    return Supply(
        load=load,
        steps=(SupplyStep(source_v=volts[0], needed_v=needed_v),),
        current_a=current_a,
        most_current_a=None,
        source=Source(text="supply as stated by the customer", basis=Basis.CUSTOMER),
    )


_SUPPLY_QUESTION = (
    "For the amplifier that is fed over the cable: which voltage is sent, how many milliamperes "
    "does it take, and which is the least voltage it works at (as in: 12 V, 100 mA, needs 10 V)?"
)
