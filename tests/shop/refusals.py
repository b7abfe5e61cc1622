"""How tests ask that the shop refuses."""

from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from reelwright.core.errors import ShopRuleBroken


@contextmanager
def refused(code: str) -> Iterator[pytest.ExceptionInfo[ShopRuleBroken]]:
    """Expect a ShopRuleBroken of this code, with a sentence for people."""
    with pytest.raises(ShopRuleBroken) as caught:
        yield caught
    assert caught.value.code == code
    assert caught.value.sentence.endswith(".")
