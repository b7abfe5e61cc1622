"""Every entry of the list of published values is held by a check, or left out with its reason."""

import importlib
import json
import os
from pathlib import Path
from typing import Any

import pytest

from tests.references import process_entries
from tests.references.entries import ENTRIES
from tests.references.harness import LeftOut
from tests.references.page import all_checks, all_left_out

LEFT_OUT = (
    LeftOut(
        names=("P15",),
        quantity="length left on a reel by its weight",
        reason="counting by weight comes with the room of stock",
    ),
    LeftOut(
        names=("P28",),
        quantity="remaining crimps of a die by the fall of its pull",
        reason="drift comes with the control of processes",
    ),
    LeftOut(
        names=(
            "spc-d3-2",
            "spc-c4-2",
            "spc-A2-2",
            "spc-A3-2",
            "spc-D3-2",
            "spc-D4-2",
            "spc-B4-2",
            "spc-d3-3",
            "spc-A3-3",
            "spc-B3-3",
            "spc-B4-3",
            "spc-d2-4",
            "spc-A2-4",
            "spc-A3-4",
            "spc-D3-4",
            "spc-D4-4",
            "spc-d2-5",
            "spc-d3-5",
            "spc-A3-5",
            "spc-D3-5",
            "spc-D4-5",
            "spc-B3-5",
            "spc-B4-5",
            "spc-d3-6",
            "spc-c4-6",
            "spc-A2-6",
            "spc-D3-6",
            "spc-D4-6",
            "spc-B4-6",
            "spc-d2-7",
            "spc-c4-7",
            "spc-A2-7",
            "spc-D3-7",
            "spc-D4-7",
            "spc-B3-7",
            "spc-B4-7",
            "spc-d2-8",
            "spc-d3-8",
            "spc-c4-8",
            "spc-A2-8",
            "spc-D3-8",
            "spc-D4-8",
            "spc-B3-8",
            "spc-d3-9",
            "spc-c4-9",
            "spc-A2-9",
            "spc-A3-9",
            "spc-D3-9",
            "spc-D4-9",
            "spc-B4-9",
            "spc-d2-10",
            "spc-D3-10",
            "spc-D4-10",
            "spc-B3-10",
            "spc-B4-10",
            "imr-mean",
            "imr-mr",
            "imr-ucl",
            "imr-lcl",
            "ewma-last",
            "cusum-arl-0",
            "cusum-arl-0.25",
            "cusum-arl-0.5",
            "cusum-arl-0.75",
            "cusum-arl-2",
            "cusum-arl-2.5",
            "cusum-arl-3",
            "cusum-arl-4",
            "cusum-arl1-0.5",
            "cusum-brook",
            "c-chart",
            "p-chart",
            "bartlett-gear",
            "levene-gear",
        ),
        quantity="charts of a running process, and the scatter of its batches",
        reason="charts come with the control of processes",
    ),
    LeftOut(
        names=(
            "cap-616-cp",
            "cap-616-cpk",
            "cap-616-cpu",
            "cap-616-cpl",
            "cap-cp-ci",
            "cap-cpk-ci",
        ),
        quantity="capability of a process",
        reason="it comes with the control of processes",
    ),
    LeftOut(
        names=(
            "grr-ss-op",
            "grr-ss-part",
            "grr-ss-rep",
            "grr-var-op",
            "grr-var-part",
            "grr-pool-rep",
            "grr-pool-op",
            "grr-pool-part",
            "grr-pool-pctGRR",
            "grr-pool-ndc",
            "grr-2",
            "gauge-261-s1",
            "gauge-261-s2",
            "gauge-261-s3",
        ),
        quantity="gauge studies",
        reason="they come with the instruments of the test bench",
    ),
    LeftOut(
        names=(
            "aql-500-II-1.0",
            "aql-1000-II-2.5",
            "aql-4000-II-2.5",
            "aql-90-II-1.0",
            "aql-280-II-1.5",
            "aql-500-II-0.65",
            "aql-20-II-0.65",
            "oc-80-2",
        ),
        quantity="sampling plans and their operating characteristic",
        reason="sampling of bought goods comes with receiving",
    ),
    LeftOut(
        names=(
            "rsi-eq",
            "rsi-0.2-10-2-0-8",
            "rsi-0.3-15-1.5-20-8",
            "rsi-0.1-30-1-10-8",
            "rsi-0.5-6-3-30-4",
            "rsi-joins",
            "si95",
            "si95-ex-6",
            "si95-cut",
            "hal-eq",
            "hal-tlv-2001",
            "hal-tlv-2018",
            "ocra",
        ),
        quantity="hand load of a day's work",
        reason="it comes with the whole plan of the benches",
    ),
    LeftOut(
        names=(
            "nv-normal",
            "nv-poisson",
            "eoqb",
            "rq-cost",
            "rq-eil",
            "rq-pois",
            "ss",
            "fill",
            "lossfn",
            "croston",
        ),
        quantity="stock policies and lumpy demand",
        reason="buying comes with the room of stock",
    ),
    LeftOut(
        names=(
            "js-ft10",
            "js-ft20",
            "js-la01",
            "js-la02",
            "js-la04",
            "js-la05",
            "tt8",
            "setup6",
        ),
        quantity="published schedules: makespan, tardiness, change-overs",
        reason="they come with the whole plan of the benches",
    ),
    LeftOut(
        names=(
            "qr-1L",
            "qr-1M",
            "qr-1Q",
            "qr-5M",
            "qr-10M",
            "qr-40L",
            "qr-40H",
            "qr-size",
            "di",
            "di-env",
        ),
        quantity="capacities of square codes, and data identifiers",
        reason="codes are made by a library, and each paper's are read back in tests/documents",
    ),
    LeftOut(
        names=(
            "ts-default",
            "ts-order",
        ),
        quantity="order of the columns in a file of sweeps",
        reason="measured sweeps come with the final test",
    ),
    LeftOut(
        names=(
            "ir-min",
            "dwv",
        ),
        quantity="insulation and voltage limits of a finished assembly",
        reason="they come with the final test",
    ),
    LeftOut(
        names=("iec60757",),
        quantity="letters of the jacket colours",
        reason="letters and no numbers: tests/test_style.py holds them",
    ),
)
LISTS = ("electrical.json", "trade-problems.json", "process.json")


def listed() -> list[dict[str, Any]]:
    """Return the entries of the lists, or skip plainly where they are not at hand."""
    folder = os.environ.get("REELWRIGHT_REFERENCE_DIR")
    if not folder:
        pytest.skip("REELWRIGHT_REFERENCE_DIR names no folder: the lists are not at hand")
    entries: list[dict[str, Any]] = []
    for name in LISTS:
        path = Path(folder) / "reference" / name
        if not path.is_file():
            pytest.skip(f"{path} is not there: the lists are not at hand")
        entries += json.loads(path.read_text("utf-8"))
    return entries


def test_every_entry_is_held_or_left_out_with_its_reason() -> None:
    """No entry in scope is passed over in silence."""
    checks = {check.id for check in all_checks()}
    left = {name for each in all_left_out() for name in each.names}
    known = {**ENTRIES, **process_entries.CHECKS}

    def held(name: str) -> bool:
        check = known.get(name, name)
        return (
            check in checks
            or name in process_entries.TESTS
            or any(each.startswith(f"{check}.") for each in checks)
        )

    silent = [e["id"] for e in listed() if e["id"] not in left and not held(e["id"])]
    assert not silent, ", ".join(silent)


def test_every_check_named_here_is_there() -> None:
    """A check or a test that was renamed or removed is found out, list at hand or not."""
    checks = {check.id for check in all_checks()}
    named = {*ENTRIES.values(), *process_entries.CHECKS.values()}
    gone = sorted(named - checks)
    for test in set(process_entries.TESTS.values()):
        module, name = test.split(".")
        if not hasattr(importlib.import_module(f"tests.references.{module}"), name):
            gone.append(test)
    assert not gone, ", ".join(gone)
