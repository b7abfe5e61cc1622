"""The one transaction of a service."""

from collections.abc import Iterator
from contextlib import contextmanager

from django.db import transaction


@contextmanager
def write_transaction() -> Iterator[None]:
    """Run a service's writes as one: all of them stand, or none.

    Inside another write transaction it joins that one, so that a day of history or a whole plan
    may be written as one. On SQLite the engine holds the workshop's lock from BEGIN to COMMIT;
    on PostgreSQL services lock the rows they decide on.
    """
    with transaction.atomic():
        yield
