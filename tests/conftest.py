"""What holds for every test: how Hypothesis searches, and a password hasher that costs nothing."""

import os
from collections.abc import Iterator

import pytest
from hypothesis import settings as hypothesis_settings

# In CI the same examples every time: a failure there must be the change's, never the dice's.
hypothesis_settings.register_profile("desk", deadline=None)
hypothesis_settings.register_profile("ci", deadline=None, derandomize=True)
hypothesis_settings.load_profile("ci" if os.environ.get("CI") == "true" else "desk")


@pytest.fixture(scope="session", autouse=True)
def _fast_password_hasher() -> Iterator[None]:
    """The real hasher is slow on purpose: 0.3 s for each sign-in."""
    from django.test import override_settings

    with override_settings(PASSWORD_HASHERS=["django.contrib.auth.hashers.MD5PasswordHasher"]):
        yield
