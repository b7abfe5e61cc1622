"""Signals as columns and customers name them: read, or answered with the question to ask."""

import re
from collections.abc import Callable

from reelwright.core.signals import (
    read_analogue,
    read_clock,
    read_data,
    read_digital,
    read_light,
    read_radio,
    read_supply,
    read_video,
)
from reelwright.core.signals.read_unjudged import unjudged_question
from reelwright.core.signals.reading import SignalReading, asking

ACCEPTED = (
    "serial video with its rate, RGBHV with its pixel clock, composite or component video, cable "
    "television, antenna feed with its service, satellite, 50 ohm feed with its frequency, "
    "coaxial, professional, balanced, multichannel or optical digital audio, word clock, black "
    "burst or tri-level sync, timecode, lighting control DMX512, RS-485 with its rate, unbalanced"
    " line audio, subwoofer line, cartridge with its capacitance, instrument pickup, balanced "
    "line or microphone audio, loudspeaker with its ohms, loudspeaker line 70 V or 100 V with its"
    " loudspeakers, category data with its rate and power, trigger or direct-current supply with "
    "its volts and load"
)
"""What would be accepted, for a question and a fault."""

Reader = Callable[[str, str], SignalReading]


# The first row that matches wins, so the narrower words stand first.
_ROWS: tuple[tuple[str, Reader], ...] = (
    (read_clock.WORD_CLOCK, read_clock.read_word_clock),
    (read_clock.REFERENCE, read_clock.read_reference),
    (read_clock.TIMECODE, read_clock.read_timecode),
    (read_clock.LIGHTING, read_clock.read_lighting),
    (read_clock.BUS, read_clock.read_bus),
    (read_radio.RADIO_MICROPHONE, read_radio.read_radio_microphone),
    (read_radio.POSITION, read_radio.read_position),
    (read_radio.FIFTY_OHM, read_radio.read_fifty_ohm),
    (read_radio.SATELLITE, read_radio.read_satellite),
    (read_radio.TERRESTRIAL, read_radio.read_terrestrial),
    (r"\b(70([.,]7)?|100)\s*v(olts?)?\b|\b(loud)?speaker line\b|\b25\s*v\b.*speaker",
     read_analogue.read_distributed_line),
    (r"\bsub-?woofers?\b|\blfe\b", read_analogue.read_subwoofer),
    (r"\b(loud)?speakers?\b", read_analogue.read_loudspeaker),
    (read_digital.MULTICHANNEL, read_digital.read_multichannel),
    (r"\boptical\b(?!.*video)|\bplastic fib(re|er)\b", read_light.read_optical),
    (read_digital.PROFESSIONAL, read_digital.read_professional),
    (read_digital.BALANCED, read_digital.read_balanced),
    (read_digital.CONSUMER, read_digital.read_consumer),
    (read_digital.UNSAID, read_digital.ask_form),
    (r"\brgb(hv|s)?\b|\bcomputer video\b|\bvga\b", read_video.read_rgbhv),
    (read_clock.UNSAID, read_clock.ask_clock),
    (read_clock.UNSAID_CONTROL, read_clock.ask_control),
    (r"\bcomposite\b", read_video.read_composite),
    (r"\bcomponent\b|\bypbpr\b", read_video.read_component),
    (read_radio.CABLE_TELEVISION, read_radio.read_cable_television),
    (read_data.WORDS, read_data.read_data),
    (r"\bserial\b|\bsdi\b|-sdi\b|\b(3|6|12)\s*g\b|\bg(b/s|bit/s|bps)|\d\s*g(b/s|bit/s|bps)"
     r"|\bhd\b.*\b1[.,]485|\b1[.,]485|\b2[.,]97|\b5[.,]94|\b11[.,]88|\b270\s*m",
     read_video.read_serial),
    (r"\bturntable\b|\bcartridge\b|\bphono (stage|input|level|preamp)",
     read_analogue.read_cartridge),
    (r"\bpick-?ups?\b|\b(guitar|bass|instrument) (cable|lead|cord)\b|\binstrument level\b",
     read_analogue.read_pickup),
    (read_supply.WORDS, read_supply.read_supply),
    (r"\bunbalanced\b", read_analogue.read_line),
    (r"\bbalanced\b|\bmic(rophone)?s?\b|\bphantom\b", read_analogue.read_balanced),
    (r"\bline (audio|level)\b|\bstereo\b|\bphono audio\b|\btape\b|\banalog(ue)? audio\b",
     read_analogue.read_line),
    (read_radio.ANTENNA, read_radio.ask_antenna),
    (r"\b(u?hd|sd|4k)\b", read_video.ask_rate),
)  # fmt: skip


def read_signal(typed: str) -> SignalReading:
    """Return what signal ``typed`` names, or the question that would settle it.

    Never guesses: a word that fits no signal, and a signal without the figure that decides, come
    back as a question naming what would be accepted.
    """
    text = " ".join(typed.casefold().replace("×", "x").split())
    question = unjudged_question(text)
    if question is not None:
        return asking(typed, question)
    for pattern, reader in _ROWS:
        if re.search(pattern, text):
            return reader(typed, text)
    start = (
        f"We do not know the signal “{typed.strip()}”." if text else "Which signal will it carry?"
    )
    return asking(typed, f"{start} We know: {ACCEPTED}.")
