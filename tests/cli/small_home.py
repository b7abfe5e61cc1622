"""Build the day world on the disk, in REELWRIGHT_HOME. Run as a script on a fresh folder."""

import sys
from pathlib import Path

if __name__ == "__main__":
    import django
    from django.core.management import call_command

    django.setup()
    call_command("migrate", verbosity=0)
    from tests.day_world import build_day_world

    build_day_world()
    Path(sys.argv[1]).touch()
