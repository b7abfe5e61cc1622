"""Steps and cautions on the demo workshop's set-up sheets, by the kind of work."""

import enum


class Work(enum.StrEnum):
    """What is done to make an end."""

    CRIMP = "crimp"
    COMPRESS = "compress"
    SOLDER = "solder"
    WELD = "weld"
    DISPLACE = "displace"
    POLISH = "polish"
    TIN = "tin"


STEPS: dict[Work, tuple[str, ...]] = {
    Work.CRIMP: (
        "Slide boot and ferrule onto the cable, the ferrule's flare towards the end.",
        "Strip with the program; look at the conductor for nicks.",
        "Put on the pin until the conductor shows in the hole; press it.",
        "Flare the braid, push the body home between foil and braid until the pin clicks.",
        "Draw the ferrule up to the body; press it once.",
        "Gauge the pin; push the boot up.",
    ),
    Work.COMPRESS: (
        "Strip with the program; look at the conductor for nicks.",
        "Fold the braid back over the jacket, evenly all round.",
        "Push the plug on until the dielectric is flush with the face inside.",
        "Compress to the stop; measure how far the conductor stands out.",
    ),
    Work.SOLDER: (
        "Slide boot and clamp onto the cable.",
        "Take the jacket back, twist the screen, bare and tin the cores.",
        "Solder by the pin map, the screen first.",
        "Close the clamp on the jacket, not on the cores; screw the shell up.",
    ),
    Work.WELD: (
        "Take the jacket back, bare the cores; no strand cut, none twisted too tight.",
        "Sleeve on the core before the plug.",
        "Weld by the program; look at the trace for time and height.",
        "Shrink the sleeve; the marked core is +.",
    ),
    Work.DISPLACE: (
        "Take the jacket back; keep each pair twisted as far as it goes.",
        "Lay the cores by the map, cut them square, push them to the wall.",
        "Press once; see that the jacket is under the bar.",
    ),
    Work.POLISH: (
        "Bare the fibre without scratching it; fit the plug.",
        "Cleave and polish on the disc, coarse then fine.",
        "Look at the end face; clean it; put the cap on.",
    ),
    Work.TIN: (
        "Take the jacket back, bare the cores, twist them as they lie.",
        "Tin the tips only; mark the + core.",
    ),
}

CAUTIONS: dict[Work, tuple[str, ...]] = {
    Work.CRIMP: (
        "Never pull on the jacket to seat the pin.",
        "One strand of braid forward is a short: look before pressing.",
    ),
    Work.COMPRESS: ("The conductor is the pin: a nick breaks it weeks later.",),
    Work.SOLDER: ("Fume extraction on.", "Joint still for three seconds; no pull test on it hot."),
    Work.WELD: ("Ear protection; fingers clear of the horn.", "No tinned or oxidised strands."),
    Work.DISPLACE: ("A split pair passes the lamp: read the map twice.",),
    Work.POLISH: ("No bend under 25 mm; do not look into a lit fibre.",),
    Work.TIN: ("Solder must not creep under the insulation.",),
}
