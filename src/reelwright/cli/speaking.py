"""What all commands share: the workshop's records opened, errors told in words, exit codes."""

import contextlib
import json
import os
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NoReturn

from reelwright.core.errors import InputFaults, ReelwrightError, ShopRuleBroken

EXIT_NO = 1
EXIT_BAD_INPUT = 2


def open_workshop(home: Path | None = None, *, begun: bool = True) -> None:
    """Load the records of the workshop at ``home`` (REELWRIGHT_HOME where it is not given).

    Raises ShopRuleBroken ``no_workshop`` where none has begun there, unless ``begun`` is False;
    nothing is made then.
    """
    if home is not None:
        os.environ["REELWRIGHT_HOME"] = str(home)
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "reelwright.config.settings")
    import django

    django.setup()
    if begun and not _has_records():
        raise ShopRuleBroken("no_workshop", _no_workshop())


def _has_records() -> bool:
    from django.db import connection

    place = connection.settings_dict["NAME"]
    # To look into a database that is not there would make it.
    if isinstance(place, Path) and not place.is_file():
        return False
    return "people_workshop" in connection.introspection.table_names()


def _no_workshop() -> str:
    from django.conf import settings

    return (
        f"There is no workshop in {settings.HOME} yet. Build the invented one with: "
        "reelwright demo; or name the folder of yours in REELWRIGHT_HOME."
    )


def stop(message: str, *, code: int) -> NoReturn:
    """Say why on standard error and end with ``code``."""
    print(message, file=sys.stderr)
    raise SystemExit(code)


@contextlib.contextmanager
def telling_errors(*, as_json: bool = False) -> Iterator[None]:
    """Turn our own errors into words and the exit code for bad input."""
    try:
        yield
    except InputFaults as error:
        if as_json:
            print(json.dumps({"faults": [vars(fault) for fault in error.faults]}))
        count = len(error.faults)
        head = "1 fault" if count == 1 else f"{count} faults"
        stop(f"{head}; nothing was written.\n{error}", code=EXIT_BAD_INPUT)
    except ShopRuleBroken as error:
        if as_json:
            print(json.dumps({"code": error.code, "sentence": error.sentence}))
        stop(error.sentence, code=EXIT_BAD_INPUT)
    except ReelwrightError as error:
        stop(str(error), code=EXIT_BAD_INPUT)
    except OSError as error:
        place = f"{error.filename}: " if error.filename else ""
        stop(f"{place}{error.strerror or error}.", code=EXIT_BAD_INPUT)


def print_json(value: Any) -> None:
    """Print one JSON object on one line."""
    print(json.dumps(value, ensure_ascii=False))
