"""The door for the web server: ``reelwright.config.wsgi.application``."""

import os
import threading

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "reelwright.config.settings")

application = get_wsgi_application()


def _load_what_pages_load_late() -> None:
    """Seconds of loading, beside the serving, so that the first answer of a day does not wait."""
    import altair  # noqa: F401
    import scipy.interpolate
    import scipy.optimize
    import scipy.special  # noqa: F401

    from reelwright.charts.plain import register_fonts

    register_fonts()


threading.Thread(target=_load_what_pages_load_late, daemon=True).start()
