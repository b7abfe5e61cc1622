"""Why something was done, in the words of who did it: asked for, and of a length that is kept."""

from reelwright.core.errors import ShopRuleBroken


def kept_reason(reason: str, *, ask: str, at_most: int) -> str:
    """Return a reason without spaces round it.

    ``ask`` tells what to say where nothing is said; empty: nothing need be. Raises ShopRuleBroken
    ``reason_missing``, and ``reason_long`` for more than ``at_most`` characters, both at the field
    ``reason``.
    """
    told = reason.strip()
    if ask and not told:
        raise ShopRuleBroken("reason_missing", ask, field="reason")
    if len(told) > at_most:
        raise ShopRuleBroken(
            "reason_long",
            f"{len(told)} characters; a reason has at most {at_most}.",
            field="reason",
        )
    return told
