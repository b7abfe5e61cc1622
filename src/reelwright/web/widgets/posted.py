"""What a form posts, read as what it stands for."""

_DIGITS_AT_MOST = 18
"""More would pass what a database counts with."""


def row_number(typed: str) -> int:
    """Return the number of a row; 0, which no row has, where what was posted is none."""
    if typed.isascii() and typed.isdigit() and len(typed) <= _DIGITS_AT_MOST:
        return int(typed)
    return 0
