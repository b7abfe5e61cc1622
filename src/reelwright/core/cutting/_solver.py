"""HiGHS, the solver of linear and integer programs, loaded at first use and kept quiet.

One thread and no time limit inside, so that the same program has the same answer. What takes long
is ended by a limit on its branching, or by the stop rule of the caller.
"""

from collections.abc import Callable
from typing import Any


def highs() -> Any:
    """Return the solver's module."""
    import highspy

    return highspy


def quiet_model() -> Any:
    """Return an empty model that writes nothing."""
    model = highs().Highs()
    model.setOptionValue("output_flag", False)
    model.setOptionValue("threads", 1)
    return model


def infinity() -> float:
    """Return what the solver takes for no limit."""
    return float(highs().kHighsInf)


def end_when(model: Any, stop: Callable[[], bool]) -> None:
    """Let ``stop`` end the branching of a model; it is asked now and then."""

    def ask(event: Any) -> None:
        if stop():
            event.interrupt()

    model.cbMipInterrupt.subscribe(ask)
