"""What holds for every test: how Hypothesis searches, and a workshop that is nobody's."""

import os
from collections.abc import Iterator

import pytest
from hypothesis import settings as hypothesis_settings

# In CI the same examples every time: a failure there must be the change's, never the dice's.
hypothesis_settings.register_profile("desk", deadline=None)
hypothesis_settings.register_profile("ci", deadline=None, derandomize=True)
hypothesis_settings.load_profile("ci" if os.environ.get("CI") == "true" else "desk")

# For the commands that tests run as processes of their own.
os.environ.setdefault("REELWRIGHT_TEST_HASHER", "1")


@pytest.fixture(scope="session", autouse=True)
def _workshop_of_the_tests(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Folders, key and hasher of this run: the real hasher is slow on purpose, 0.3 s a sign-in.

    The settings were read before any fixture ran, so they are set here and not by variables.
    """
    from django.test import override_settings

    home = tmp_path_factory.mktemp("workshop")
    with override_settings(
        HOME=home,
        PACKS_FOLDER=home / "packs",
        ORDERS_FOLDER=home / "orders",
        PHOTOGRAPHS_FOLDER=home / "photographs",
        SECRET_KEY="of the tests alone",
        PASSWORD_HASHERS=["django.contrib.auth.hashers.MD5PasswordHasher"],
    ):
        yield


@pytest.fixture(scope="session")
def django_db_modify_db_settings_xdist_suffix(request: pytest.FixtureRequest) -> None:
    """Give each worker a database of its own name on PostgreSQL only.

    The plugin knows Django's own SQLite engine, whose test database lies in each process's memory;
    it takes ours for a server and would ask for a file.
    """
    from django.db import connection

    if connection.vendor != "sqlite":
        request.getfixturevalue("django_db_modify_db_settings_xdist_suffix")
