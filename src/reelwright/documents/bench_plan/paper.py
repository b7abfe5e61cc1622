"""The bench plan onto A4."""

from reelwright.documents.bench_plan.content import BenchPlanSheet
from reelwright.documents.press import print_pdf


def render_bench_plan(content: BenchPlanSheet) -> bytes:
    """The bench plan as PDF."""
    return print_pdf("bench_plan/bench_plan.typ", content)
