"""The key that signs sessions."""

import stat
import threading
from pathlib import Path

import pytest

from reelwright.config.secret import read_or_make_secret
from reelwright.core.errors import ShopRuleBroken


def test_made_once_and_closed(tmp_path: Path) -> None:
    """The first use makes it, in a home that is made too, for its owner only; the second reads."""
    path = tmp_path / "home" / "secret.key"
    key = read_or_make_secret(path)
    assert len(key) >= 60
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert read_or_make_secret(path) == key
    assert [each.name for each in path.parent.iterdir()] == ["secret.key"]


def test_two_workshops_have_two_keys(tmp_path: Path) -> None:
    """No key is ever the same as another's."""
    assert read_or_make_secret(tmp_path / "a") != read_or_make_secret(tmp_path / "b")


def test_first_users_at_once_agree(tmp_path: Path) -> None:
    """Whoever is quicker makes it, all use that one."""
    keys: set[str] = set()
    gate = threading.Barrier(6)

    def use() -> None:
        gate.wait()
        keys.add(read_or_make_secret(tmp_path / "secret.key"))

    threads = [threading.Thread(target=use) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(keys) == 1


@pytest.mark.parametrize(
    ("text", "mode", "code"),
    [("k" * 80, 0o644, "secret_key_open"), ("short", 0o600, "secret_key_short")],
)
def test_an_open_or_short_key_is_refused(tmp_path: Path, text: str, mode: int, code: str) -> None:
    """Others could read it, or guess it; the sentence says what to do."""
    path = tmp_path / "secret.key"
    path.write_text(text)
    path.chmod(mode)
    with pytest.raises(ShopRuleBroken) as caught:
        read_or_make_secret(path)
    assert caught.value.code == code
    assert str(path) in caught.value.sentence
