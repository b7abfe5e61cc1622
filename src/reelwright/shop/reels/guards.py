"""Checks of what services are given, each with its code and sentence."""

import math

from reelwright.core.errors import ShopRuleBroken


def require_whole_length(length_mm: int, *, what: str, least_mm: int = 1) -> None:
    """Raise ``length_bad`` unless it is a whole number of millimetres of at least ``least_mm``."""
    whole = isinstance(length_mm, int) and not isinstance(length_mm, bool)
    if not whole or length_mm < least_mm:
        raise ShopRuleBroken(
            "length_bad",
            f"{what} is {length_mm!r}. Accepted: whole millimetres, {least_mm} or more.",
            length_mm=length_mm,
        )


def require_uncertainty(**given: float) -> None:
    """Raise ``uncertainty_bad`` unless each is finite and not negative."""
    for name, value in given.items():
        if not math.isfinite(value) or value < 0:
            raise ShopRuleBroken(
                "uncertainty_bad",
                f"The uncertainty is {value!r}. Accepted: millimetres, zero or more.",
                field=name,
                value=value,
            )


def require_code(code: str, *, what: str) -> None:
    """Raise ``code_bad`` unless it can be printed, scanned and told apart."""
    if not code or code != code.strip() or len(code) > 40 or not code.isprintable():
        raise ShopRuleBroken(
            "code_bad",
            f"{code!r} cannot be the code of a {what}. Accepted: 1 to 40 characters, no space at "
            "either end.",
            value=code,
        )


def require_reason(reason: str) -> None:
    """Raise ``reason_missing`` unless a reason of up to 200 characters is given."""
    if not reason.strip() or len(reason) > 200:
        raise ShopRuleBroken("reason_missing", "Say why, in 1 to 200 characters.", reason=reason)
