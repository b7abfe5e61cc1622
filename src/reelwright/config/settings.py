"""Django's settings, all from ``environment``; importing this file writes nothing to the disk."""

import functools
import os
from datetime import timedelta
from typing import Any

from django.utils.functional import lazystr

from reelwright.config.environment import DatabaseAddress, read_environment
from reelwright.config.secret import read_or_make_secret

ENVIRONMENT = read_environment(os.environ)

HOME = ENVIRONMENT.home
PACKS_FOLDER = HOME / "packs"
ORDERS_FOLDER = HOME / "orders"
PHOTOGRAPHS_FOLDER = HOME / "photographs"
PORT = ENVIRONMENT.port

DEBUG = ENVIRONMENT.debug
ALLOWED_HOSTS = list(ENVIRONMENT.hosts)


class _SecretKey:
    """Read when first used, so that a command which signs nothing makes no key."""

    @functools.cached_property
    def text(self) -> str:
        return read_or_make_secret(HOME / "secret.key")

    def __str__(self) -> str:
        return self.text


SECRET_KEY = lazystr(_SecretKey())

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "axes",
    "csp",
    "django_htmx",
    "reelwright.shop.people",
    "reelwright.shop.catalogue",
    "reelwright.shop.reels",
    "reelwright.shop.bins",
    "reelwright.shop.tools",
    "reelwright.shop.setups",
    "reelwright.shop.trials",
    "reelwright.shop.orders",
    "reelwright.shop.work",
    "reelwright.shop.day",
    "reelwright.web.widgets",
    "reelwright.web.office",
    "reelwright.web.bench",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "reelwright.config.middleware.workshop_time_zone",
    "reelwright.web.widgets.errors.TellErrors",
    # Last: it turns the lock-out raised while signing in into an answer.
    "axes.middleware.AxesMiddleware",
]

ROOT_URLCONF = "reelwright.config.urls"
WSGI_APPLICATION = "reelwright.config.wsgi.application"
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "reelwright.web.widgets.frame.frame",
            ],
        },
    },
]


def _database(address: DatabaseAddress | None) -> dict[str, Any]:
    if address is None:
        return {
            "ENGINE": "reelwright.config.sqlite",
            "NAME": HOME / "workshop.sqlite3",
            "OPTIONS": {
                # A deferred transaction that turns writer late is refused at once, not queued.
                "transaction_mode": "IMMEDIATE",
                "timeout": 20,
                "init_command": (
                    "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON;"
                ),
            },
        }
    return {
        "ENGINE": "django.db.backends.postgresql",
        "NAME": address.name,
        "USER": address.user,
        "PASSWORD": address.password,
        "HOST": address.host,
        "PORT": address.port,
        "CONN_HEALTH_CHECKS": True,
        "CONN_MAX_AGE": 60,
    }


DATABASES = {"default": _database(ENVIRONMENT.database)}

# People and signing in -------------------------------------------------------------------------
AUTH_USER_MODEL = "people.Person"
AUTHENTICATION_BACKENDS = [
    "axes.backends.AxesStandaloneBackend",
    "django.contrib.auth.backends.ModelBackend",
]
AUTH_PASSWORD_VALIDATORS = [
    {
        "NAME": "django.contrib.auth.password_validation.MinimumLengthValidator",
        "OPTIONS": {"min_length": 10},
    },
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
if ENVIRONMENT.test_hasher:
    PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]

# By name and not by address: a tablet shared by the whole bench has one address.
AXES_LOCKOUT_PARAMETERS = ["username"]
# What forms and ``authenticate`` call it. The default is our model's field name: then no failure
# is ever counted, silently.
AXES_USERNAME_FORM_FIELD = "username"
AXES_FAILURE_LIMIT = 8
AXES_COOLOFF_TIME = timedelta(minutes=15)
AXES_RESET_ON_SUCCESS = True
AXES_DISABLE_ACCESS_LOG = True
AXES_VERBOSE = False
AXES_LOCKOUT_TEMPLATE = "office/locked_out.html"
LOGIN_URL = "sign_in"
# It warns of locking by anything that the attacker may change; the user name is not such a thing.
SILENCED_SYSTEM_CHECKS = ["axes.W006"]

SESSION_COOKIE_AGE = 12 * 3600
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_HTTPONLY = True
CSRF_COOKIE_HTTPONLY = False
CSRF_COOKIE_SAMESITE = "Lax"
CSRF_FAILURE_VIEW = "reelwright.web.widgets.errors.stale_form"

# Security headers ------------------------------------------------------------------------------
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": ["'self'"],
        "script-src": ["'self'"],
        "style-src": ["'self'"],
        "img-src": ["'self'"],
        "font-src": ["'self'"],
        "connect-src": ["'self'"],
        "object-src": ["'none'"],
        "base-uri": ["'none'"],
        "form-action": ["'self'"],
        "frame-ancestors": ["'none'"],
    },
}
SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
DATA_UPLOAD_MAX_MEMORY_SIZE = 21 * 2**20
FILE_UPLOAD_MAX_MEMORY_SIZE = 2**20

# Files of the pages ----------------------------------------------------------------------------
STATIC_URL = "/static/"
# Straight from the installed packages: nothing to collect before a workshop can open.
WHITENOISE_USE_FINDERS = True
WHITENOISE_MAX_AGE = 600

# How a message is toned, as the pages' colours are named.
MESSAGE_TAGS = {10: "", 20: "", 25: "good", 30: "caution", 40: "bad"}

# Words and times -------------------------------------------------------------------------------
LANGUAGE_CODE = "en"
USE_I18N = True
USE_TZ = True
# Of records; people see the workshop's own zone (``config.middleware``).
TIME_ZONE = "UTC"

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"plain": {"format": "{levelname} {name}: {message}", "style": "{"}},
    "handlers": {"terminal": {"class": "logging.StreamHandler", "formatter": "plain"}},
    "root": {"handlers": ["terminal"], "level": "WARNING"},
    "loggers": {
        "django.server": {"handlers": ["terminal"], "level": "WARNING", "propagate": False},
        "axes": {"handlers": ["terminal"], "level": "ERROR", "propagate": False},
    },
}
