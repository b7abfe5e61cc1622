"""What every engine answers with: checks, a verdict, reasons, "not computed"."""

from reelwright.core.verdicts.check import Basis, Check, Outcome, Source
from reelwright.core.verdicts.verdict import Reason, Verdict

__all__ = ["Basis", "Check", "Outcome", "Reason", "Source", "Verdict"]
