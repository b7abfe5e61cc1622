"""What the settings promise, seen from outside."""

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from django.core.checks import run_checks
from django.core.management import call_command
from django.db import connection
from django.test import Client

from tests.small_world import TODAY, build_small_world


def test_django_finds_nothing_to_complain_of() -> None:
    """Its own checks of models and settings are silent."""
    assert [found for found in run_checks() if not found.is_silenced()] == []


def test_every_migration_is_there(db: None) -> None:
    """No model of the shop differs from what the migrations make."""
    call_command("makemigrations", check=True, dry_run=True, verbosity=0)


def test_reading_the_settings_writes_nothing(tmp_path: Path) -> None:
    """A command that needs no workshop leaves no trace of one."""
    home = tmp_path / "home"
    code = "import django; django.setup()"
    variables = os.environ | {
        "REELWRIGHT_HOME": str(home),
        "DJANGO_SETTINGS_MODULE": "reelwright.config.settings",
    }
    subprocess.run([sys.executable, "-c", code], env=variables, check=True)
    assert not home.exists()


def test_the_page_policy_is_strict(client: Client, db: None) -> None:
    """Own files only: no inline script or style, no frame, no sniffing, no referrer abroad."""
    answer = client.get("/alive")
    assert answer.status_code == 200
    policy = answer["Content-Security-Policy"]
    assert "default-src 'self'" in policy
    assert "unsafe" not in policy
    assert "frame-ancestors 'none'" in policy
    assert answer["X-Frame-Options"] == "DENY"
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert answer["Referrer-Policy"] == "same-origin"


@pytest.mark.django_db(transaction=True)
def test_a_name_is_locked_after_eight_failures(rf: Any) -> None:
    """The eighth locks that name, from any address, and no other; erasing forgets attempts."""
    from axes.models import AccessAttempt
    from django.contrib.auth import authenticate
    from django.core.exceptions import PermissionDenied

    from reelwright.shop.people.services import person_erase, person_set_password

    world = build_small_world()
    for person in (world.ben, world.vic):
        person_set_password(by=world.ada, person=person, password="copper and tin 9")

    def sign_in(name: str, password: str, address: str) -> object:
        request = rf.post("/", REMOTE_ADDR=address)
        try:
            return authenticate(request, username=name, password=password)
        except PermissionDenied:
            return None

    assert sign_in("ben", "copper and tin 9", "10.0.0.1") == world.ben
    for number in range(settings.AXES_FAILURE_LIMIT):
        assert sign_in("ben", "wrong", f"10.0.0.{number}") is None
    assert sign_in("ben", "copper and tin 9", "10.0.0.99") is None
    assert sign_in("vic", "copper and tin 9", "10.0.0.1") == world.vic
    person_erase(by=world.ada, person=world.ben, on=TODAY)
    assert not AccessAttempt.objects.filter(username="ben").exists()


def test_the_database_keeps_foreign_keys(db: None) -> None:
    """On SQLite the connection has them on; PostgreSQL knows no other way."""
    if connection.vendor != "sqlite":
        return
    with connection.cursor() as cursor:
        assert cursor.execute("PRAGMA foreign_keys").fetchone() == (1,)
        assert cursor.execute("PRAGMA synchronous").fetchone() == (2,)
