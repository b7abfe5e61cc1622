"""Eight threads book at once. Run as a script on a fresh home, or called inside a test."""

import json
import sys
import threading
from collections import Counter
from collections.abc import Callable

THREADS = 8


def at_once(book: Callable[[int], object]) -> Counter[str]:
    """Start the same booking in all threads at one moment; count how each ended."""
    from django.db import connection

    from reelwright.core.errors import ShopRuleBroken

    ends: Counter[str] = Counter()
    gate, counting = threading.Barrier(THREADS), threading.Lock()

    def one(number: int) -> None:
        gate.wait()
        try:
            book(number)
            end = "booked"
        except ShopRuleBroken as refusal:
            end = refusal.code
        except Exception as failure:
            end = repr(failure)
        finally:
            connection.close()
        with counting:
            ends[end] += 1

    threads = [threading.Thread(target=one, args=(number,)) for number in range(THREADS)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return ends


def run() -> dict[str, object]:
    """One piece booked eight times, then eight pieces of which the short reel holds five."""
    from reelwright.shop.reels.selectors import reel_now
    from reelwright.shop.reels.services import reel_cut_book
    from tests.small_world import FULL, SHORT, TODAY, build_small_world

    world = build_small_world()

    def book(piece: str, reel_code: str) -> object:
        return reel_cut_book(
            by=world.ben,
            reel_code=reel_code,
            piece=piece,
            cut_mm=1_000,
            standard_uncertainty_mm=0.0,
            wheel_uncertainty_mm=0.0,
            on=TODAY,
        )

    same = at_once(lambda _number: book("P-1", FULL))
    many = at_once(lambda number: book(f"P-2/{number}", SHORT))
    return {
        "same": dict(same),
        "many": dict(many),
        "full_mm": reel_now(FULL).length_mm,
        "short_mm": reel_now(SHORT).length_mm,
    }


if __name__ == "__main__":
    import django
    from django.core.management import call_command

    django.setup()
    call_command("migrate", verbosity=0)
    json.dump(run(), sys.stdout)
