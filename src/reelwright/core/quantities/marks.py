"""The marks of the house's typography, for page, chart, drawing, paper and sentence alike."""

NARROW_SPACE = "\N{NARROW NO-BREAK SPACE}"
"""Stands between a number and its unit."""

MINUS = "\N{MINUS SIGN}"
CROSS = "\N{MULTIPLICATION SIGN}"
DIAMETER = "\N{LATIN CAPITAL LETTER O WITH STROKE}"
"""The font has no sign for a diameter; this letter stands for it."""
