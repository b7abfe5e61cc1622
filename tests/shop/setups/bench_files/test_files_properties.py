"""Whatever a file holds it is read whole or its faults are told; twice is once, in any order."""

import csv
import io

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from reelwright.core.errors import InputFaults
from reelwright.shop.setups.bench_files.columns import COLUMNS, Vocabulary, read_readings
from reelwright.shop.setups.bench_files.services import bench_file_read
from tests.shop.setups.bench_files.test_files import kept
from tests.small_world import TODAY, SmallWorld

WORDS = Vocabulary(revisions={("s-1", "b"): 7}, people={"ben": 2})
GOOD = {
    "set_up": "S-1",
    "revision": "B",
    "date": "2027-03-02",
    "end": "1",
    "what": "pull",
    "value": "194 N",
    "gave_way": "conductor broke",
}
PARTS = {"pull": 194.0, "pin growth": 18.20, "pin crimp": 1.62, "ferrule crimp": 6.48, "a": 4.25}
ROWS = st.lists(
    st.tuples(
        st.sampled_from(sorted(PARTS)),
        st.integers(min_value=1, max_value=30),
        st.integers(min_value=-20, max_value=20),
    ),
    min_size=1,
    max_size=12,
    unique_by=lambda row: row[:2],
)


def file_of(rows: list[dict[str, str]]) -> bytes:
    """The rows as a file."""
    text = io.StringIO()
    # Quoted: older Pythons leave a bare carriage return open, and it would end the row.
    writer = csv.DictWriter(text, COLUMNS, restval="", lineterminator="\n", quoting=csv.QUOTE_ALL)
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue().encode()


def row_of(what: str, end: int, hundredths: int) -> dict[str, str]:
    """A row near what that part of an end measures."""
    value = f"{PARTS[what] + hundredths / 100:.2f} {'N' if what == 'pull' else 'mm'}"
    mode = "conductor broke" if what == "pull" else ""
    return (
        GOOD
        | {"what": what, "end": str(end), "value": value, "gave_way": mode}
        | ({"before": "17.90 mm", "instrument": "I-2"} if what == "pin growth" else {})
    )


@given(content=st.binary(max_size=300))
def test_random_bytes_never_break_the_reader(content: bytes) -> None:
    """Any bytes are read, or refused with faults that have their words."""
    try:
        _, faults = read_readings(name="b.csv", content=content, vocabulary=WORDS)
    except InputFaults as error:
        faults = list(error.faults)
    for fault in faults:
        assert fault.problem
        assert fault.accepted


@given(column=st.sampled_from(COLUMNS), cell=st.text(max_size=30))
@example(column="person", cell="\r0")
def test_a_strange_cell_never_breaks_the_reader(column: str, cell: str) -> None:
    """Any text in any column gives a reading or a fault, never both and never neither."""
    content = file_of([GOOD | {column: cell}])
    try:
        readings, faults = read_readings(name="c.csv", content=content, vocabulary=WORDS)
    except InputFaults:
        return
    assert bool(readings) != bool(faults)


@pytest.mark.django_db
@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(rows=ROWS, shuffled=st.randoms(use_true_random=False))
def test_reading_twice_is_reading_once_and_the_order_does_not_matter(
    world: SmallWorld, on_trial: int, rows: list[tuple[str, int, int]], shuffled: object
) -> None:
    """After the same rows in another order nothing is new and the records say the same."""
    from django.db import transaction

    there = [row_of(*row) for row in rows]
    mixed = list(there)
    shuffled.shuffle(mixed)  # type: ignore[attr-defined]
    with transaction.atomic():
        first = bench_file_read(by=world.ben, name="a.csv", content=file_of(there), on=TODAY)
        once = kept(on_trial)
        again = bench_file_read(by=world.ben, name="b.csv", content=file_of(mixed), on=TODAY)
        assert (first.new, again.new, kept(on_trial)) == (len(rows), 0, once)
        transaction.set_rollback(True)
