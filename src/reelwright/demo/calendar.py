"""The demo workshop's days: two weeks of history, then a working day that stands still."""

import datetime as dt

WORKING_DAY = dt.date(2026, 11, 24)
"""A Tuesday."""

OPENING = WORKING_DAY - dt.timedelta(days=14)
"""The day the ledgers were opened."""

EVE = WORKING_DAY - dt.timedelta(days=1)
"""The evening before, when every reel was counted."""

SEED = 20261124
"""Of all chance in the demo: two builds are the same workshop."""


def history_days() -> tuple[dt.date, ...]:
    """Return the working days from the opening to the eve, Monday to Friday."""
    days = (OPENING + dt.timedelta(days=n) for n in range((EVE - OPENING).days + 1))
    return tuple(day for day in days if day.weekday() < 5)
