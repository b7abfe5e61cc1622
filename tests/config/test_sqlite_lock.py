"""One writer at a time, among threads and processes."""

import subprocess
import sys
import threading
import time
from pathlib import Path

from reelwright.config.sqlite.lock import WriterLock

HOLDER = """
import pathlib, sys
from reelwright.config.sqlite.lock import WriterLock
lock = WriterLock(pathlib.Path(sys.argv[1]))
assert lock.take(timeout_s=5)
print("held", flush=True)
sys.stdin.readline()
"""


def test_a_second_connection_waits_in_vain_and_then_not(tmp_path: Path) -> None:
    """Taken, refused in time, given, taken."""
    first, second = (WriterLock(tmp_path / "workshop.sqlite3") for _ in range(2))
    assert first.take(timeout_s=1)
    begun = time.monotonic()
    assert not second.take(timeout_s=0.1)
    assert 0.09 <= time.monotonic() - begun < 2
    first.give()
    assert second.take(timeout_s=1)
    second.close()
    first.close()
    assert (tmp_path / "workshop.lock").exists()


def test_another_process_is_kept_out_until_it_ends(tmp_path: Path) -> None:
    """Also where it ends without giving the lock back: the kernel does."""
    path = tmp_path / "workshop.sqlite3"
    command = [sys.executable, "-c", HOLDER, str(path)]
    with subprocess.Popen(
        command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as holder:
        assert holder.stdout is not None
        assert holder.stdout.readline() == "held\n"
        lock = WriterLock(path)
        assert not lock.take(timeout_s=0.1)
        holder.kill()
        holder.wait()
        assert lock.take(timeout_s=5)
        lock.close()


def test_two_databases_do_not_wait_for_each_other(tmp_path: Path) -> None:
    """Each file has its own lock; a database in memory needs none."""
    locks = [WriterLock(tmp_path / "a.sqlite3"), WriterLock(tmp_path / "b.sqlite3")]
    locks += [WriterLock(None), WriterLock(None)]
    assert all(lock.take(timeout_s=0.1) for lock in locks)
    for lock in locks:
        lock.close()


def test_threads_add_up(tmp_path: Path) -> None:
    """A read and a write with a pause between, two hundred times: none is lost."""
    number = tmp_path / "number"
    number.write_text("0")

    def work() -> None:
        lock = WriterLock(tmp_path / "workshop.sqlite3")
        for _ in range(50):
            assert lock.take(timeout_s=30)
            seen = int(number.read_text())
            time.sleep(0.0002)
            number.write_text(str(seen + 1))
            lock.give()
        lock.close()

    threads = [threading.Thread(target=work) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert number.read_text() == "200"


def test_a_forgotten_lock_is_given_back(tmp_path: Path) -> None:
    """A thread that ended while it held the lock does not keep the workshop shut."""
    path = tmp_path / "workshop.sqlite3"

    def take_and_forget() -> None:
        assert WriterLock(path).take(timeout_s=1)

    thread = threading.Thread(target=take_and_forget)
    thread.start()
    thread.join()
    lock = WriterLock(path)
    assert lock.take(timeout_s=1)
    lock.close()
