"""Tables of the set-ups. Written by services only, read by selectors only."""

from reelwright.shop.setups.models.photographs import Photograph, PhotographTakenBack
from reelwright.shop.setups.models.readings import (
    BenchFile,
    EndDimension,
    EndDimensionWithdrawal,
    Pull,
    PullWithdrawal,
)
from reelwright.shop.setups.models.revisions import (
    FitOverride,
    Revision,
    RevisionNote,
    RevisionOperation,
    SetUp,
    StateMove,
)
from reelwright.shop.setups.models.times import ChangeOverTimes, WorkTime
from reelwright.shop.setups.models.weld_traces import WeldTrace, WeldTraceWithdrawal

__all__ = [
    "BenchFile",
    "ChangeOverTimes",
    "EndDimension",
    "EndDimensionWithdrawal",
    "FitOverride",
    "Photograph",
    "PhotographTakenBack",
    "Pull",
    "PullWithdrawal",
    "Revision",
    "RevisionNote",
    "RevisionOperation",
    "SetUp",
    "StateMove",
    "WeldTrace",
    "WeldTraceWithdrawal",
    "WorkTime",
]
