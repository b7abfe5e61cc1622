"""Building a value of a search although some of its fields are missing or wrong.

What is wrong with the others is told in the same breath: a stand-in takes the place of each that
is told already, and disturbs none.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from reelwright.core.errors import BadValue

_T = TypeVar("_T")
_STEPS = 4


@dataclass(frozen=True, kw_only=True)
class ReadValue(Generic[_T]):
    """A value as far as it could be read: None where it cannot be built at all.

    ``stood``: the fields that something else stands in for; ``name`` is empty where it is one.
    """

    value: _T | None
    stood: frozenset[str]
    name: str


def build_telling(
    build: Callable[..., _T],
    given: Mapping[str, Any],
    stands: Callable[[Mapping[str, Any]], dict[str, Any]],
    tell: Callable[[BadValue], None],
) -> ReadValue[_T]:
    """Return the value built from ``given``, the fields that could be read.

    ``stands`` returns a value for every field, those given as they are. ``tell`` is called for each
    that is refused; a stand-in takes its place then.
    """
    good = dict(given)
    while True:
        whole = stands(good)
        stood, name = frozenset(set(whole) - set(good)), str(good.get("name", ""))
        try:
            return ReadValue(value=build(**whole), stood=stood, name=name)
        except BadValue as error:
            if error.field not in good:
                # A stand-in is refused only where another field, told already, leaves it no room.
                return ReadValue(value=None, stood=stood, name=name)
            tell(error)
            del good[error.field]


def setting_stands(good: Mapping[str, Any]) -> dict[str, Any]:
    """Return the fields of a Setting: what is missing is set so that the others make sense."""
    low, high, step = (good.get(key) for key in ("low", "high", "step"))
    if step is None:
        apart = 0 if low is None or high is None else (high - low) / _STEPS
        step = apart if apart > 0 else 1.0
    if low is None:
        low = 1.0 if high is None else high - _STEPS * step
    if high is None:
        high = low + _STEPS * step
    rest = {"name": "this setting", "unit": "1", "drift": 0.0}
    return rest | dict(good) | {"low": low, "high": high, "step": step}


def others(**fields: Any) -> Callable[[Mapping[str, Any]], dict[str, Any]]:
    """Return stand-ins that are the same whatever the other fields are."""
    return lambda good: fields | dict(good)
