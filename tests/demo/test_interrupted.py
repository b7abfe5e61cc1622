"""A demo whose building was stopped is finished by the next call, as if nothing had happened."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

_STOPPED = """
import django; django.setup()
from reelwright.demo import build, history
written = history._write_day
def write_or_stop(index, day):
    if index == 3:
        raise SystemExit(9)
    written(index, day)
history._write_day = write_or_stop
build.build_or_find()
"""

_FINISHED = """
import json
import django; django.setup()
from reelwright.demo import build
found = build.build_or_find()
from reelwright.shop.reels.selectors import reel_ledger, reels_now
from reelwright.shop.setups.selectors import pulls, released_set_ups
print(json.dumps({
    "built": found.built,
    "ledgers": {
        reel.code: [[str(line.on), line.kind, line.change_mm] for line in reel_ledger(reel.code)]
        for reel in reels_now()
    },
    "pulls": sorted(
        [sheet.code, str(pull.pulled_on), pull.force_n]
        for sheet in released_set_ups().values() for pull in pulls(sheet.revision_id)
    ),
}))
"""


@pytest.fixture
def homes(tmp_path: Path) -> tuple[Path, Path]:
    """Two folders for two workshops."""
    return tmp_path / "stopped", tmp_path / "straight"


def run(program: str, home: Path) -> subprocess.CompletedProcess[str]:
    """Run a program in a process of its own, on the workshop in ``home``."""
    return subprocess.run(
        [sys.executable, "-c", program],
        env={
            **{
                name: text for name, text in os.environ.items() if not name.startswith("REELWRIGHT")
            },
            "DJANGO_SETTINGS_MODULE": "reelwright.config.settings",
            "REELWRIGHT_HOME": str(home),
            "REELWRIGHT_TEST_HASHER": "1",
        },
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )


def test_a_stopped_build_is_finished(homes: tuple[Path, Path]) -> None:
    """Stopped on its fourth day and called again: the same ledgers and pulls, entry by entry."""
    stopped, straight = homes
    assert run(_STOPPED, stopped).returncode == 9
    finished, whole = run(_FINISHED, stopped), run(_FINISHED, straight)
    assert finished.returncode == 0, finished.stderr
    assert whole.returncode == 0, whole.stderr
    assert json.loads(finished.stdout) == json.loads(whole.stdout)
