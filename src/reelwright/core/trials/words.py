"""A window in sentences, for page, command and bench alike."""

from reelwright.core.quantities.show import show_chance, show_digits
from reelwright.core.trials.problem import TrialsProblem
from reelwright.core.trials.window import NoWindow, Window

MOST_DRIFTS = 60


def span_sentences(window: Window, problem: TrialsProblem) -> tuple[str, ...]:
    """Return how far each setting may go by itself, one sentence each, without full stop."""
    return tuple(
        f"{setting.name} alone may go from {setting.show(span.low)} to {setting.show(span.high)}"
        for setting, span in zip(problem.settings, window.spans, strict=True)
    )


def room_sentence(window: Window) -> str:
    """Return how much room the machine has about the centre, without full stop."""
    ratio = window.drifts_to_edge_ratio
    away = "60 or more" if ratio >= MOST_DRIFTS else show_digits(ratio, digits=2)
    # Told from some hundred draws: none of them outside is no certainty.
    stays = window.stays_chance
    told = f"more than {show_chance(0.99)}" if stays > 0.995 else show_chance(stays)
    return (
        f"the nearest edge lies {away} standard deviations of the machine's own play away; "
        f"drifting, it stays inside with a chance of {told}"
    )


def sure_sentence(window: Window | NoWindow, problem: TrialsProblem) -> str:
    """Return what a window rests on, or how many trials there are without one."""
    made, failed = len(problem.trials), len(problem.trials) - len(problem.survived)
    told = f"{made} trial{'' if made == 1 else 's'} made"
    if failed:
        told += f", {failed} of them failed outright"
    if isinstance(window, Window) and not window.confirmed:
        told += "; a window is proven, and its centre was not tried yet"
    return told
