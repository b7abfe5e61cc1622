"""How many cables a customer's sentence speaks of."""

import re

_NUMERALS = (
    *("one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)
_WORDS = {
    **{word: number for number, word in enumerate(_NUMERALS, start=1)},
    **{"dozen": 12, "a dozen": 12},
}
_NUMBER = "|".join([r"\d{1,3}", *sorted(_WORDS, key=len, reverse=True)])
_UNIT = (
    r"(?:ft|feet|foot|m|cm|mm|metres?|meters?|in|inch|inches|yards?|yd"
    r"|['\u2019\u2032\"\u201d\u2033])"
)
_LENGTH = rf"[\d.,]+[\s-]*{_UNIT}(?:\s*[\d./ ]+(?:in|inch|inches|[\"\u2033]))?"
# What a figure may count or measure that is no cable.
_OTHERS = (
    r"(?:v|volts?|w|watts?|a|amps?|ohms?|db|pf|k?hz|mhz|ghz|gauge|awg|g|gb|mb|way|core|cores|pin"
    r"|contacts?|channels?|pairs?|strand|year|day|hour|degrees?|st|nd|rd|th)"
)
# What may stand between the number and its noun: "two 6 ft jumpers", "10 black mic cables".
_BETWEEN = rf"(?:(?:of\s+)?{_LENGTH}\s+|(?!{_UNIT}\b)[a-z][a-z-]*\s+){{0,3}}"
_NOUN = (
    r"(?:cables?|leads?|jumpers?|cords?|pieces|runs?|pcs|lengths)\b"
    # "three cable reels" and "a cable television" count something else.
    r"(?!\s+(?:reels?|drums?|ties|television|tv|testers?)\b)"
)
_COUNTED = (
    re.compile(rf"(?<![\w.,/-])({_NUMBER})\s+(?!(?:{_UNIT}|{_OTHERS})(?![a-z])){_BETWEEN}{_NOUN}"),
    re.compile(rf"(?<![\w.,/-])({_NUMBER})\s+(?:of\s+them|off)\b"),
    re.compile(r"(?<![\w.,/-])(\d{1,3})\s*[×x]\s*(?=\d)"),
)
_PAIRS = re.compile(r"\bstereo pair\b|\b(?:a\s+)?pair\s+(?:of|at)\b")


def counts_in(text: str) -> tuple[int, ...]:
    """Return the numbers of cables stated in ``text``: 6 × 85 ft, three leads, a pair of leads.

    A figure that belongs to something else (75-ohm, 12-channel, 8 loudspeakers) is none.
    """
    low = " ".join(text.casefold().split())
    found = []
    for pattern in _COUNTED:
        for match in pattern.finditer(low):
            word = match[1]
            found.append(int(word) if word.isdigit() else _WORDS[word])
    if _PAIRS.search(low):
        found.append(2)
    return tuple(dict.fromkeys(found))
