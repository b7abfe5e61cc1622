"""One writer at a time on one database file, among the threads and processes of one machine."""

import fcntl
import os
import threading
import time
from pathlib import Path

_POLL_S = 0.005

_thread_locks: dict[str, threading.Lock] = {}
_register = threading.Lock()


def _thread_lock(name: str) -> threading.Lock:
    with _register:
        return _thread_locks.setdefault(name, threading.Lock())


class WriterLock:
    """A lock that one connection takes for the length of one write transaction.

    ``database`` is None for a database in memory: then there is nobody to keep out, because all
    its users share one cache whose own locks serve.
    """

    def __init__(self, database: Path | None) -> None:
        self._path = None if database is None else database.with_suffix(".lock")
        self._threads = _thread_lock(str(self._path)) if self._path else None
        self._file: int | None = None
        if self._path is not None:
            self._file = os.open(self._path, os.O_RDWR | os.O_CREAT | os.O_CLOEXEC, 0o600)
        self.held = False

    def take(self, *, timeout_s: float) -> bool:
        """Wait for the lock; return whether it came in time."""
        if self._threads is None or self._file is None:
            self.held = True
            return True
        end = time.monotonic() + timeout_s
        # Threads queue here first, so that only one thread of each process polls the file.
        if not self._threads.acquire(timeout=timeout_s):
            return False
        while True:
            try:
                fcntl.flock(self._file, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except BlockingIOError:
                if time.monotonic() >= end:
                    self._threads.release()
                    return False
                time.sleep(_POLL_S)
            else:
                self.held = True
                return True

    def give(self) -> None:
        """Release the lock where it is held."""
        if not self.held:
            return
        self.held = False
        if self._threads is not None and self._file is not None:
            fcntl.flock(self._file, fcntl.LOCK_UN)
            self._threads.release()

    def close(self) -> None:
        """Release the lock and close its file; harmless when done already."""
        self.give()
        if self._file is not None:
            os.close(self._file)
            self._file = None

    def __del__(self) -> None:
        # A thread that ends without closing its connection must not keep all others out.
        self.close()
