"""The key that signs sessions: one per workshop, made at first use, readable by its owner only."""

import os
import secrets
from pathlib import Path

from reelwright.core.errors import ShopRuleBroken

_LEAST_CHARACTERS = 50


def read_or_make_secret(path: Path) -> str:
    """Return the workshop's key, making it (mode 0600) where there is none.

    Raises:
        ShopRuleBroken: ``secret_key_open`` where others on this machine may read the file,
            ``secret_key_short`` where it holds too little.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    fresh = path.with_name(f"{path.name}.{secrets.token_hex(8)}")
    if not path.exists():
        descriptor = os.open(fresh, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
        with os.fdopen(descriptor, "w", encoding="ascii") as file:
            file.write(secrets.token_urlsafe(60))
        try:
            # A link fails where another process was quicker; a rename would replace its key.
            os.link(fresh, path)
        except FileExistsError:
            pass
        finally:
            fresh.unlink()
    if path.stat().st_mode & 0o077:
        raise ShopRuleBroken(
            "secret_key_open",
            f"Others on this machine may read {path}. Close it with: chmod 600 {path}",
            path=str(path),
        )
    key = path.read_text(encoding="ascii").strip()
    if len(key) < _LEAST_CHARACTERS:
        raise ShopRuleBroken(
            "secret_key_short",
            f"{path} holds fewer than {_LEAST_CHARACTERS} characters. Remove it and a new key is "
            "made; everyone then signs in again.",
            path=str(path),
        )
    return key
