"""The door for the web server: ``reelwright.config.wsgi.application``."""

import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "reelwright.config.settings")

application = get_wsgi_application()
