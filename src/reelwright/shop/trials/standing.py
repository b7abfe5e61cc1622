"""Where each search stands, computed once and kept as long as its records stay the same.

The computing takes a second or two; the records of a search and one seed always give the same
answer, so nothing has to be told when a trial is added: the new records ask anew.
"""

import threading
from collections import OrderedDict

from reelwright.core.trials.problem import TrialsProblem
from reelwright.core.trials.standing import Standing, stand

SEED = 1
AT_ONCE = 2
"""Trials proposed together: one to make, and one for whoever has the machine set already."""

_MOST_KEPT = 24
_Key = tuple[TrialsProblem, int | None]
_kept: "OrderedDict[_Key, Standing]" = OrderedDict()
_keeping = threading.Lock()
# One at a time: the parts of one page ask at once, and the second then finds it done.
_computing = threading.Lock()


def standing_if_known(problem: TrialsProblem, *, most_trials: int | None) -> Standing | None:
    """Return where the search stands if that was computed already, else ``None``."""
    with _keeping:
        found = _kept.get((problem, most_trials))
        if found is not None:
            _kept.move_to_end((problem, most_trials))
        return found


def standing(problem: TrialsProblem, *, most_trials: int | None) -> Standing:
    """Return where the search stands, computing it where it is not known yet."""
    with _computing:
        found = standing_if_known(problem, most_trials=most_trials)
        if found is None:
            found = stand(problem, count=AT_ONCE, seed=SEED, most_trials=most_trials)
            with _keeping:
                _kept[problem, most_trials] = found
                while len(_kept) > _MOST_KEPT:
                    _kept.popitem(last=False)
        return found
