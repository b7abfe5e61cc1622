"""The signals there are, for lists on a page."""

from dataclasses import dataclass

from reelwright.core.quantities.guard import require_text


@dataclass(frozen=True, kw_only=True)
class SignalChoice:
    """One signal to choose: a stable ``code``, a ``name`` for people, the text that reads so.

    Where the text holds a figure (a pixel clock, an impedance) it is an example to be changed.
    """

    code: str
    name: str
    typed: str

    def __post_init__(self) -> None:
        require_text(self, "code", "name", "typed")


def _choice(code: str, name: str, typed: str) -> SignalChoice:
    return SignalChoice(code=code, name=name, typed=typed)


SIGNAL_CHOICES = (
    _choice("serial-video-270m", "Serial video 270 Mb/s", "serial video 270 Mb/s"),
    _choice("serial-video-1.485g", "Serial video 1.485 Gb/s", "serial video 1.485 Gb/s"),
    _choice("serial-video-2.97g", "Serial video 2.97 Gb/s", "serial video 2.97 Gb/s"),
    _choice("serial-video-5.94g", "Serial video 5.94 Gb/s", "serial video 5.94 Gb/s"),
    _choice("serial-video-11.88g", "Serial video 11.88 Gb/s", "serial video 11.88 Gb/s"),
    _choice("rgbhv", "RGBHV video", "RGBHV 154 MHz"),
    _choice("composite", "Composite video", "composite video"),
    _choice("component", "Component video", "component video"),
    _choice("cable-television", "Cable television", "cable television"),
    _choice("antenna-fm", "Antenna feed, FM radio", "FM radio antenna"),
    _choice("antenna-dab", "Antenna feed, DAB radio", "DAB radio antenna"),
    _choice("antenna-dvb-t", "Antenna feed, DVB-T", "DVB-T antenna"),
    _choice("antenna-dvb-t2", "Antenna feed, DVB-T2", "DVB-T2 antenna"),
    _choice("satellite", "Satellite head", "satellite"),
    _choice("radio-50", "50 ohm feed", "50 ohm feed 600 MHz, 6 dB"),
    _choice("digital-audio-75", "Coaxial digital audio", "coaxial digital audio 48 kHz"),
    _choice(
        "digital-audio-75-professional",
        "Professional coaxial digital audio",
        "professional coaxial digital audio 48 kHz",
    ),
    _choice("digital-audio-110", "Balanced digital audio", "balanced digital audio 48 kHz"),
    _choice(
        "digital-audio-multichannel", "Multichannel digital audio", "multichannel digital audio"
    ),
    _choice("optical-audio", "Optical audio", "optical audio"),
    _choice("word-clock", "Word clock", "word clock 48 kHz, terminated"),
    _choice("black-burst", "Black burst", "black burst, terminated"),
    _choice("tri-level-sync", "Tri-level sync", "tri-level sync, terminated"),
    _choice("timecode", "Unbalanced timecode", "unbalanced timecode"),
    _choice("timecode-balanced", "Balanced timecode", "balanced timecode"),
    _choice("lighting-control", "Lighting control DMX512", "lighting control DMX512, 12 fixtures"),
    _choice("rs-485", "RS-485 control", "RS-485 control 115.2 kb/s, 8 devices"),
    _choice("line-audio", "Unbalanced line audio", "unbalanced line audio"),
    _choice("subwoofer-line", "Subwoofer line", "subwoofer line"),
    _choice("cartridge", "Moving-magnet cartridge", "cartridge 150 to 300 pF, input 100 pF"),
    _choice("instrument-pickup", "Instrument pickup", "instrument pickup"),
    _choice("balanced-line", "Balanced line audio", "balanced line audio"),
    _choice("microphone", "Microphone", "balanced microphone audio"),
    _choice("microphone-phantom", "Microphone with phantom power", "microphone with phantom power"),
    _choice("loudspeaker", "Loudspeaker", "loudspeaker 8 ohm"),
    _choice("loudspeaker-line", "Loudspeaker line", "loudspeaker line 70 V, 8 x 15 W, 20 ft apart"),
    _choice("data", "Category data", "category data"),
    _choice("data-100m", "Data 100 Mb/s", "category data 100 Mb/s"),
    _choice("data-1g", "Data 1 Gb/s", "category data 1 Gb/s"),
    _choice("data-2.5g", "Data 2.5 Gb/s", "category data 2.5 Gb/s"),
    _choice("data-5g", "Data 5 Gb/s", "category data 5 Gb/s"),
    _choice("data-10g", "Data 10 Gb/s", "category data 10 Gb/s"),
    _choice("data-power", "Data 1 Gb/s with power", "category data 1 Gb/s with power of type 2"),
    _choice("trigger", "Trigger", "trigger 12 V, 100 mA, 10 % fall"),
    _choice("supply", "Direct-current supply", "supply 12 V DC, 2 A, 5 % fall"),
)
"""Every signal that can be judged, in the order of a list."""
