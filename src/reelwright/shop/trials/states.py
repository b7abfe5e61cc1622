"""The words in which a search is kept."""

import enum


class SearchState(enum.StrEnum):
    """Whether trials may still be added."""

    OPEN = "open"
    CLOSED = "closed"


class GuessKind(enum.StrEnum):
    """What physics says of a response before the first trial."""

    LEVEL = "level"
    SLOPE = "slope"
    PEAK = "peak"


class Process(enum.StrEnum):
    """What is tried; it decides what a new search begins with and which cautions are shown."""

    WELD = "weld"
    CRIMP = "crimp height"
    STRIP = "strip depth"
    OTHER = "something else"
