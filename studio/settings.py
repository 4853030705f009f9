"""Settings that run with nothing set. Every secret and service comes from the environment.

FOREDAY_DATA          folder of database, pictures and backups (default: .data beside manage.py)
DATABASE_URL          another database, for a studio that outgrows one machine
DJANGO_SECRET_KEY     made and kept in the data folder when absent
DJANGO_ALLOWED_HOSTS  comma-separated; naming a host means "online": HTTPS only, behind a TLS proxy
FOREDAY_HOME_HOSTS    names in one's own network, without TLS (studio/home_hosts.py)
DJANGO_DEBUG          1 for Django's own error pages; never online
FOREDAY_PICTURES      s3://BUCKET/FOLDER for pictures in an object store (studio/store_address.py)
FOREDAY_LOG           json for a log of one JSON object a line, and a line for each request
"""

import os
from pathlib import Path

import dj_database_url
from csp.constants import NONE, SELF
from django.core.exceptions import ImproperlyConfigured

from studio.data_folder import data_folder, is_key, kept_secret_key, make_private
from studio.home_hosts import home_hosts
from studio.kept_style import keep_style
from studio.store_address import object_store

BASE_DIR = Path(__file__).resolve().parent.parent
DATA_DIR = data_folder(Path(os.environ.get("FOREDAY_DATA", BASE_DIR / ".data")))
# Where the key lies, if it is ours to keep (planning/backup takes it along).
KEY_FILE = None if os.environ.get("DJANGO_SECRET_KEY") else DATA_DIR / "secret_key"
SECRET_KEY = kept_secret_key(KEY_FILE) if KEY_FILE else os.environ["DJANGO_SECRET_KEY"]
if not is_key(SECRET_KEY.encode(errors="replace")):
    raise ImproperlyConfigured("DJANGO_SECRET_KEY: every link hangs on it: 50 characters at least.")
DEBUG = os.environ.get("DJANGO_DEBUG") == "1"

LOOPBACK = ["localhost", "127.0.0.1", "[::1]"]
named_hosts = [
    h.strip() for h in os.environ.get("DJANGO_ALLOWED_HOSTS", "").split(",") if h.strip()
]
ONLINE = any(host not in LOOPBACK for host in named_hosts)
if ONLINE and DEBUG:  # its pages show settings and what was typed to whoever makes one fall
    raise ImproperlyConfigured("DJANGO_DEBUG and DJANGO_ALLOWED_HOSTS: one or the other.")
HOME_HOSTS = home_hosts(os.environ.get("FOREDAY_HOME_HOSTS", ""))
if ONLINE and HOME_HOSTS:
    raise ImproperlyConfigured("FOREDAY_HOME_HOSTS and DJANGO_ALLOWED_HOSTS: one or the other.")
ALLOWED_HOSTS = [*(named_hosts or LOOPBACK), *HOME_HOSTS]

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "axes",
    "csp",
    "crispy_forms",
    "crispy_bootstrap5",
    "studio",
    "intake",
    "planning",
]

MIDDLEWARE = [
    "studio.logs.EachRequest",
    "django.middleware.security.SecurityMiddleware",
    "csp.middleware.CSPMiddleware",  # outside the others, so that their refusals carry it too
    "studio.compress.CompressText",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "intake.languages.EachInTheirLanguage",
    "django.middleware.common.CommonMiddleware",
    "studio.letters.ReadableLetters",  # before any form is read
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "studio.sessions.EndInTime",
    "django.contrib.auth.middleware.LoginRequiredMiddleware",  # deny by default
    "django.contrib.messages.middleware.MessageMiddleware",
    "planning.access.EachTheirPart",  # and of those who may sign in, each what is theirs
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "axes.middleware.AxesMiddleware",  # last, as its documentation asks
]

ROOT_URLCONF = "studio.urls"
WSGI_APPLICATION = "studio.wsgi.application"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "studio.context.studio",
            ],
            "builtins": ["studio.templatetags.clock"],
        },
    },
]

try:
    database = dj_database_url.config(default=f"sqlite:///{DATA_DIR / 'foreday.sqlite3'}")
except ValueError as error:
    raise ImproperlyConfigured("DATABASE_URL: not an address of a database.") from error
DATABASES = {"default": database}
if DATABASES["default"]["ENGINE"].endswith("sqlite3"):
    # IMMEDIATE: a read that later writes would otherwise fail with "database is locked" when two
    # people save at once. FULL: what is acknowledged is on the disk, whatever happens to the
    # current. Secure: what is erased is overwritten, and not only forgotten where it was.
    # Inside OPTIONS, or it silently never applies (tests read the PRAGMAs).
    DATABASES["default"]["OPTIONS"] = {
        "transaction_mode": "IMMEDIATE",
        "timeout": 10,  # seconds; two servers on a busy machine were seen to wait for five
        "init_command": "PRAGMA journal_mode=WAL;PRAGMA synchronous=FULL;"
        "PRAGMA foreign_keys=ON;PRAGMA secure_delete=ON;",
    }
    make_private(DATABASES["default"]["NAME"])
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

AUTHENTICATION_BACKENDS = [
    "axes.backends.AxesStandaloneBackend",
    "django.contrib.auth.backends.ModelBackend",
]
AUTH_PASSWORD_VALIDATORS = [
    {
        "NAME": "django.contrib.auth.password_validation.MinimumLengthValidator",
        "OPTIONS": {"min_length": 12},
    },
    {"NAME": "studio.password_rules.CommonWithMore"},
]
PASSWORD_HASHERS = [
    "django.contrib.auth.hashers.Argon2PasswordHasher",
    "django.contrib.auth.hashers.PBKDF2PasswordHasher",
]
LOGIN_URL = "login"
LOGIN_REDIRECT_URL = "season"
LOGOUT_REDIRECT_URL = "login"
# By name and address together: a stranger's guesses must not lock the photographer out.
AXES_LOCKOUT_PARAMETERS = [["username", "ip_address"]]
AXES_HANDLER = "studio.wrong_passwords.UpToNow"
AXES_FAILURE_LIMIT = 6
AXES_COOLOFF_TIME = 0.25  # hours
AXES_LOCKOUT_TEMPLATE = "registration/locked.html"
AXES_RESET_ON_SUCCESS = True
AXES_DISABLE_ACCESS_LOG = True  # sign-ins are in the log, not in the database
AXES_VERBOSE = False
AXES_ALLOWED_CORS_ORIGINS = ""  # its own "*" would be the only such header here
AXES_CLIENT_STR_CALLABLE = "studio.sessions.who"
AXES_CLIENT_IP_CALLABLE = "studio.asker.asker"

LANGUAGE_CODE = "en-gb"
# Each in its own words. A language is offered to couples when its catalogue is whole.
LANGUAGES = [
    ("en-gb", "English"),
    ("de", "Deutsch"),
    ("fr", "Français"),
    ("es", "Español"),
    ("pl", "Polski"),
]
LOCALE_PATHS = [BASE_DIR / "studio" / "locale"]
USE_TZ = True
TIME_ZONE = "UTC"

STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
    # What couples and photographer send (intake/store.py). Nothing here is served but by a view.
    "pictures": {
        "BACKEND": "studio.storage.PrivateFiles",
        "OPTIONS": {
            "location": DATA_DIR / "pictures",
            "file_permissions_mode": 0o600,
            "directory_permissions_mode": 0o700,
        },
    },
}
if os.environ.get("FOREDAY_PICTURES"):
    STORAGES["pictures"] = object_store(os.environ)

STATIC_URL = "/static/"
STATICFILES_DIRS = [BASE_DIR / "static"]
STATIC_ROOT = None  # whitenoise serves the finders' files; there is no collectstatic step
WHITENOISE_USE_FINDERS = True
WHITENOISE_AUTOREFRESH = DEBUG
# A phone need never ask again for a font: a changed one gets another name.
WHITENOISE_IMMUTABLE_FILE_TEST = r"^/static/fonts/.*\.woff2$"
WHITENOISE_ADD_HEADERS_FUNCTION = keep_style

CRISPY_ALLOWED_TEMPLATE_PACKS = "bootstrap5"
CRISPY_TEMPLATE_PACK = "bootstrap5"

CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "font-src": [SELF],
        "img-src": [SELF, "data:"],
        "connect-src": [SELF],
        "form-action": [SELF],
        "frame-ancestors": [NONE],
        "base-uri": [NONE],
    },
}
# Not "no-referrer": browsers then send "Origin: null" and Django refuses every form.
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
CSRF_FAILURE_VIEW = "studio.views.form_too_old"
CSRF_COOKIE_HTTPONLY = True
MESSAGE_STORAGE = "studio.notices.Notices"
SESSION_COOKIE_AGE = 7 * 24 * 3600  # without being used; studio/sessions.py has the longest
DATA_UPLOAD_MAX_NUMBER_FIELDS = 20_000  # a long guest list is not an attack
DATA_UPLOAD_MAX_MEMORY_SIZE = 2_621_440  # bytes of a form without its files
DATA_UPLOAD_MAX_NUMBER_FILES = 100  # whoever picks a whole album is told which were left out
FILE_UPLOAD_MAX_MEMORY_SIZE = 1_048_576  # a larger file waits on the disk
FILE_UPLOAD_PERMISSIONS = 0o600

if ONLINE:
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
    SECURE_SSL_REDIRECT = True
    SECURE_REDIRECT_EXEMPT = [r"^health$"]  # asked on this machine, behind the proxy
    SECURE_HSTS_SECONDS = 2 * 365 * 24 * 3600
    SECURE_HSTS_INCLUDE_SUBDOMAINS = True
    SECURE_HSTS_PRELOAD = True
    SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = True
    SESSION_COOKIE_NAME = "__Host-session"
    CSRF_COOKIE_NAME = "__Host-csrf"
    CSRF_TRUSTED_ORIGINS = [
        f"https://*{host}" if host.startswith(".") else f"https://{host}" for host in named_hosts
    ]

if (log := os.environ.get("FOREDAY_LOG", "")) not in ("", "json"):
    raise ImproperlyConfigured("FOREDAY_LOG: leave it out, or set it to json.")
HOUSEKEEPING = ("AXES: Cleaned up", "AXES: Reset", "AXES: Deleted", "AXES: User login failed,")
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"lines": {"()": f"studio.logs.{'JsonLines' if log else 'PlainLines'}"}},
    "filters": {
        "no_housekeeping": {
            "()": "django.utils.log.CallbackFilter",
            "callback": lambda record: not str(record.msg).startswith(HOUSEKEEPING),
        },
        "other_name": {"()": "studio.logs.AskedByAnotherName"},
    },
    "handlers": {
        "console": {
            "class": "logging.StreamHandler",
            "formatter": "lines",
            "filters": ["no_housekeeping", "other_name"],
        }
    },
    "root": {"handlers": ["console"], "level": "WARNING"},
    "loggers": {
        "axes": {"level": "INFO"},  # signed in, signed out, refused
        "foreday": {"level": "INFO"},
        "foreday.request": {"level": "INFO" if log else "WARNING"},
        "django.request": {"level": "ERROR"},  # a 404's path may hold a couple's secret link
    },
}
