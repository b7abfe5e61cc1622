"""The days of the cutting benchmark: made by a seed, or read from published files."""

import json
from collections import Counter
from pathlib import Path

import pytest

from benchmarks.cutting_cases import FOLDER
from benchmarks.days_made import ITEMS, MOST_REELS, made
from benchmarks.days_read import published, published_names, read_day
from reelwright.core.cutting import LotGroup, LotRule, Stretch

TOLD = {
    "name": "shop_2_1",
    "costs": {
        "short_c_per_prio": 20000,
        "short_c_per_m": 200,
        "bad_end_c": 300,
        "mount_c": 150,
        "open_remnant_c": 50,
        "fifo_c_per_m_rank": 2,
        "swarf": 50,
    },
    "items": [
        {"id": "K/red", "price_c_per_m": 80, "allowance": 10, "start_trim": 200,
         "min_remnant": 3000, "tol_minus": 0},
    ],
    "reels": [
        {"id": 7, "item": 0, "remaining": 9000, "lot": "A", "age_days": 4, "opened": False,
         "flaws": [[5000, 5100], [5050, 5300]]},
        {"id": 8, "item": 0, "remaining": 6000, "lot": "B", "age_days": 9, "opened": True,
         "flaws": [[0, 40], [5900, 6000]]},
    ],
    "pieces": [{"order": 1, "item": 0, "len": 4000, "qty": 2, "group": 3, "prio": 5}],
    "groups": [{"id": 3, "item": 0, "rule": "reel"}, {"id": 4, "item": 0, "rule": "lot"}],
}  # fmt: skip


def test_a_day_is_the_same_for_the_same_seed_and_another_for_another() -> None:
    """The seed alone decides."""
    assert made(30, seed=1) == made(30, seed=1)
    assert made(30, seed=1) != made(30, seed=2)


@pytest.mark.parametrize("pieces", [30, 300, 2000])
def test_a_made_day_has_the_shape_that_is_told(pieces: int) -> None:
    """Pieces enough, 40 items, at most 12 reels each, flaws, uncertainty and groups."""
    problem = made(pieces, seed=1).problem
    assert pieces <= len(problem.pieces) < pieces + 20
    assert len(problem.rules) == ITEMS
    reels = Counter(reel.item for reel in problem.reels)
    assert len(reels) == ITEMS
    assert max(reels.values()) <= MOST_REELS
    flaws = sum(len(reel.stretches) - 1 for reel in problem.reels)
    assert 0.3 * len(problem.reels) < flaws < 0.8 * len(problem.reels)
    assert all(one.standard_uncertainty_mm > 50 for reel in problem.reels for one in reel.stretches)
    assert problem.groups
    assert all(300 < piece.cut_length_mm <= 12_050 for piece in problem.pieces)


def test_a_published_day_is_read() -> None:
    """The allowance is in the piece, the start in a closed reel, and flaws that overlap are one."""
    day = read_day(TOLD)
    closed, opened = day.problem.reels
    assert closed.stretches == (
        Stretch(start_mm=200, length_mm=4800, standard_uncertainty_mm=0.0),
        Stretch(start_mm=5300, length_mm=3700, standard_uncertainty_mm=0.0),
    )
    assert opened.stretches == (Stretch(start_mm=40, length_mm=5860, standard_uncertainty_mm=0.0),)
    assert (closed.age_rank, opened.age_rank) == (1, 0)
    assert [piece.cut_length_mm for piece in day.problem.pieces] == [4010, 4010]
    assert day.problem.groups == (LotGroup(id="G-3", rule=LotRule.SAME_REEL),)
    assert (day.money.short_cents, day.money.unusable_end_cents) == (20000, 300)


def test_published_days_are_found_by_size(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """The days of the folder come with the fewest pieces first, and are read by name."""
    folder = tmp_path / "cutting" / "workshop-days"
    folder.mkdir(parents=True)
    for name in ("shop_300_1", "shop_30_2"):
        (folder / f"{name}.json").write_text(json.dumps(TOLD | {"name": name}))
    monkeypatch.setenv(FOLDER, str(tmp_path))
    assert published_names() == (["shop_30_2", "shop_300_1"], [])
    assert published("shop_300_1").name == "shop_300_1"


def test_it_is_said_where_there_are_no_published_days(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """With no folder named, or one without days, one sentence says so."""
    monkeypatch.delenv(FOLDER, raising=False)
    names, why = published_names()
    assert not names
    assert FOLDER in why[0]
    monkeypatch.setenv(FOLDER, str(tmp_path))
    names, why = published_names()
    assert not names
    assert "workshop-days" in why[0]
