"""Bookings that meet: one wins, nobody is told the database is locked."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from django.db import connection

from tests.shop.reels.race import THREADS, run

ROOT = Path(__file__).resolve().parents[3]


@pytest.mark.django_db(transaction=True)
def test_bookings_at_the_same_moment(tmp_path: Path) -> None:
    """A piece booked eight times is cut once; a reel of five metres gives five pieces of one."""
    if connection.vendor == "sqlite":
        # On a file, as a workshop has it: the tests' own database lives in memory.
        variables = os.environ | {"REELWRIGHT_HOME": str(tmp_path), "PYTHONPATH": str(ROOT)}
        variables["DJANGO_SETTINGS_MODULE"] = "reelwright.config.settings"
        command = [sys.executable, "-m", "tests.shop.reels.race"]
        done = subprocess.run(
            command, env=variables, cwd=ROOT, capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, done.stderr
        found = json.loads(done.stdout)
    else:
        found = run()
    assert found == {
        "same": {"booked": 1, "already_cut": THREADS - 1},
        "many": {"booked": 5, "not_enough": THREADS - 5},
        "full_mm": 99_000,
        "short_mm": 0,
    }
