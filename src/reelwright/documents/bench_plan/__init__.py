"""The bench plan: who makes what, where and when, and what is late."""

from reelwright.documents.bench_plan.content import BenchPlanSheet, BenchRow, PersonLoad
from reelwright.documents.bench_plan.paper import render_bench_plan

__all__ = ["BenchPlanSheet", "BenchRow", "PersonLoad", "render_bench_plan"]
