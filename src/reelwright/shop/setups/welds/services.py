"""Every write of weld traces: read in whole or not at all, and taken back with a reason."""

import datetime as dt
import hashlib
from dataclasses import asdict, dataclass

import numpy as np

from reelwright.core.ends.weld.trace import PowerTrace, compare_weld, weld_features
from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.core.parts.connector import Method
from reelwright.core.verdicts import Outcome
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.reasons import kept_reason
from reelwright.shop.setups.models import Revision, WeldTrace, WeldTraceWithdrawal
from reelwright.shop.setups.selectors import revision_sheet
from reelwright.shop.setups.states import State
from reelwright.shop.setups.welds.selectors import weld_traces
from reelwright.shop.setups.welds.trace_file import read_trace
from reelwright.shop.transactions import write_transaction

LONGEST_REASON = 200
_DRAWN_POINTS = 160


@dataclass(frozen=True, kw_only=True)
class TraceTaken:
    """What a file brought: the number of its trace; ``new`` is false where it was read before."""

    number: int
    new: bool


@write_transaction()
def weld_trace_record(
    *,
    by: Person,
    revision_id: int,
    name: str,
    content: bytes,
    joint_width_m: float | None,
    good: bool,
    reason: str,
    on: dt.date,
) -> TraceTaken:
    """Read in the trace of one weld; the same bytes again for a revision change nothing.

    ``good``: whether whoever welded takes it for a good one. A doubtful one says why, and so does
    one that is called good against what the good ones before it say. Raises ShopRuleBroken
    ``not_allowed``, ``no_weld``, ``not_welded_yet``, ``width_impossible``, ``reason_missing``,
    ``reason_long``; InputFaults with everything that is wrong with the file.
    """
    require_may(by, Action.BOOK_WORK)
    sheet = revision_sheet(revision_id)
    if sheet.method is not Method.WELD:
        raise ShopRuleBroken("no_weld", f"{sheet.name} is not welded: it has no power trace.")
    if sheet.state in (State.DRAFTED, State.WITHDRAWN):
        raise ShopRuleBroken(
            "not_welded_yet",
            f"{sheet.name} is {sheet.state}: only a revision in use or on trial is welded.",
        )
    # Two readings of one file at once: the second waits here, and then finds the first one's row.
    list(Revision.objects.select_for_update().filter(pk=revision_id))
    digest = hashlib.sha256(content).hexdigest()
    before = WeldTrace.objects.filter(revision_id=revision_id, digest=digest).first()
    if before is not None:
        return TraceTaken(number=before.pk, new=False)
    if joint_width_m is not None and not 0.1e-3 <= joint_width_m <= 50e-3:
        raise ShopRuleBroken(
            "width_impossible", "Accepted: 0.1 to 50 mm, or nothing.", field="width"
        )
    trace = read_trace(name=name, content=content)
    features = weld_features(trace)
    earlier = [one.features for one in weld_traces(revision_id) if one.serves]
    odd = [c.name for c in compare_weld(features, earlier) if c.outcome is Outcome.BAD]
    told = kept_reason(reason, ask=_why(odd, good=good), at_most=LONGEST_REASON)
    made = WeldTrace.objects.create(
        revision_id=revision_id,
        digest=digest,
        name=name[:200],
        **asdict(features),
        joint_height_m=trace.height_after_m,
        joint_width_m=joint_width_m,
        curve=_thinned(trace),
        good=good,
        reason=told,
        read_on=on,
        read_by=by,
    )
    return TraceTaken(number=made.pk, new=True)


@write_transaction()
def weld_trace_take_back(*, by: Person, number: int, reason: str, on: dt.date) -> None:
    """Let a trace count no more, saying why.

    Raises ShopRuleBroken ``not_allowed``, ``reason_missing``, ``reason_long``,
    ``already_withdrawn``; UnknownCode.
    """
    require_may(by, Action.CORRECT)
    row = WeldTrace.objects.filter(pk=number).first()
    if row is None:
        raise UnknownCode(kind="trace", code=str(number))
    told = kept_reason(reason, ask="Say why it no longer counts.", at_most=LONGEST_REASON)
    list(Revision.objects.select_for_update().filter(pk=row.revision_id))
    if WeldTraceWithdrawal.objects.filter(trace=row).exists():
        raise ShopRuleBroken("already_withdrawn", "This trace was taken back already.")
    WeldTraceWithdrawal.objects.create(trace=row, withdrawn_on=on, withdrawn_by=by, reason=told)


def _why(odd: list[str], *, good: bool) -> str:
    if not good:
        return "Say what is doubtful about it."
    if odd:
        return (
            f"Not as good welds have it: {', '.join(odd)}. Call it doubtful, or say why it is good."
        )
    return ""


def _thinned(trace: PowerTrace) -> list[list[float]]:
    """The curve as it is drawn: its features were taken from every point before."""
    times = trace.time_s - trace.time_s[0]
    if len(times) > _DRAWN_POINTS:
        even = np.linspace(0.0, float(times[-1]), _DRAWN_POINTS - 1)
        # The peak itself stays, or the drawing would show another one than the table.
        at = np.unique(np.r_[even, times[int(np.argmax(trace.power_w))]])
    else:
        at = times
    powers = np.interp(at, times, trace.power_w)
    return [[round(float(t), 5), round(float(p), 2)] for t, p in zip(at, powers, strict=True)]
