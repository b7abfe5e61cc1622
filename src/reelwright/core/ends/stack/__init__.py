"""Tolerance stacks: what many small deviations make of one dimension.

All values of one stack are in one unit, the caller's: metres for the tip of a pin. A contributor's
sensitivity is what the result moves by for one unit of it.
"""

from reelwright.core.ends.stack.contributor import Contributor, Keeper, Reading
from reelwright.core.ends.stack.improve import Improvement, improvements, worth_working_on
from reelwright.core.ends.stack.linear import LinearStack, Window, linearise
from reelwright.core.ends.stack.simulate import Simulated, simulate

__all__ = [
    "Contributor",
    "Improvement",
    "Keeper",
    "LinearStack",
    "Reading",
    "Simulated",
    "Window",
    "improvements",
    "linearise",
    "simulate",
    "worth_working_on",
]
