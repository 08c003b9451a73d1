"""Django settings of Evenfall, read from the environment; defaults suit one machine at home.

Variables (README, "Hosting"): EVENFALL_ADDRESS, EVENFALL_HOSTS, EVENFALL_DATA, EVENFALL_SECRET_KEY,
EVENFALL_DEBUG, EVENFALL_PROXIES, EVENFALL_WORKER, EVENFALL_SIGN_UP, EVENFALL_ADMIN, EVENFALL_WEATHER,
EVENFALL_WEATHER_ARCHIVE, EVENFALL_*_RATE, DATABASE_URL, CACHE_URL.
"""

import os
from pathlib import Path
from urllib.parse import urlsplit

import environ
from csp.constants import NONE, SELF

from lawn.web import environment as read

BASE_DIR = Path(__file__).resolve().parent.parent
DATA_DIR = Path(os.environ.get("EVENFALL_DATA", BASE_DIR / "var"))
os.umask(0o077)  # before anything is written: the book, its backups and its photos are this user's alone
DATA_DIR.mkdir(mode=0o700, parents=True, exist_ok=True)
FRONTEND_DIR = BASE_DIR / "frontend"
FRONTEND_DIST = FRONTEND_DIR / "dist"
FORMER_BUILDS = BASE_DIR / "var" / "build" / "former"  # written by lawn.tooling.build
# Off: the kill-switch. Phones throw the app's caches away, never their books, and load pages from here.
WORKER = read.flag("EVENFALL_WORKER", default=True)

# --- where it is opened -------------------------------------------------------------------------
# A phone installs the app and gives its location only to a secure origin: https, or localhost.
ADDRESS = read.address("EVENFALL_ADDRESS", "http://localhost:8000")
_SECURE = ADDRESS.startswith("https://")
_HOST = urlsplit(ADDRESS).hostname or "localhost"

SECRET_KEY = read.secret_key(DATA_DIR)
DEBUG = read.flag("EVENFALL_DEBUG", default=False)
ALLOWED_HOSTS = read.names("EVENFALL_HOSTS", ["localhost", "127.0.0.1", "[::1]", _HOST])
CSRF_TRUSTED_ORIGINS = [ADDRESS]
NUM_PROXIES = read.whole("EVENFALL_PROXIES", 1 if _SECURE else 0, 0, 5)

# Plain http works on one's own machine and network; behind TLS every cookie is for https only.
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = _SECURE
SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if NUM_PROXIES else None
SECURE_HSTS_SECONDS = 180 * 24 * 3600 if _SECURE else 0

# --- the parts ----------------------------------------------------------------------------------
INSTALLED_APPS = [
    "django.contrib.admin",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "rest_framework",
    "drf_spectacular",
    "csp",
    "pwa",
    "lawn",
    "lawn.weather",  # brings a command
    "lawn.planning",  # likewise
    "api",
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "lawn.web.headers.Headers",
    "csp.middleware.CSPMiddleware",
    "lawn.web.built_files.BuiltFiles",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "lawn.web.sessions.Sliding",
    "api.origin.SameOrigin",
    "django.middleware.common.CommonMiddleware",
    "api.origin.OperatorsCsrf",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
]
ROOT_URLCONF = "lawn.urls"
ASGI_APPLICATION = "lawn.asgi.application"
APPEND_SLASH = True
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
            ]
        },
    }
]

# --- data ---------------------------------------------------------------------------------------
DATABASES = {"default": read.database(DATA_DIR / "evenfall.sqlite3")}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
# The throttles of sign-in, sign-up and invitations count in the database (lawn.web.throttle_counters), whatever is
# named here.
CACHES = {"default": environ.Env.cache_url_config(os.environ.get("CACHE_URL", "locmemcache://"))}
# Full pictures lie as files beside the database (lawn/photos), so many for a household and no more.
# What the phones of one household may write in all, photos apart.
BOOK_BYTES = read.whole("EVENFALL_BOOK_MEGABYTES", 256, 1, 1_000_000) * 1_000_000
PHOTOS_DIR = DATA_DIR / "photos"
PHOTOS_MOST = read.whole("EVENFALL_PHOTOS", 2000, 0, 1_000_000)
PHOTOS_MOST_BYTES = read.whole("EVENFALL_PHOTOS_MEGABYTES", 1000, 0, 10_000_000) * 1_000_000
DATA_UPLOAD_MAX_MEMORY_SIZE = 4 * 1024 * 1024
USE_TZ = True
TIME_ZONE = "UTC"
LANGUAGE_CODE = "en-us"
USE_I18N = False

# --- people -------------------------------------------------------------------------------------
AUTH_USER_MODEL = "lawn.Person"
PASSWORD_HASHERS = ["lawn.web.hashing.Argon2", "lawn.web.hashing.PBKDF2"]  # two at a time
_VALIDATION = "django.contrib.auth.password_validation."
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": _VALIDATION + "UserAttributeSimilarityValidator", "OPTIONS": {"user_attributes": ("email", "name")}},
    {"NAME": _VALIDATION + "MinimumLengthValidator", "OPTIONS": {"min_length": 10}},
    {"NAME": _VALIDATION + "CommonPasswordValidator"},
    {"NAME": _VALIDATION + "NumericPasswordValidator"},
]
# Sliding (lawn.web.sessions): renewed once a day, so that a pull writes nothing on most requests.
SESSION_ENGINE = "lawn.web.sessions"  # kept under the hash of the cookie, and owned by a person
SESSION_COOKIE_AGE = 180 * 24 * 3600
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_NAME = "evenfall_session"

# "invitation": an account comes only by an invitation or from the operator (manage.py person), so that nothing at all
# can be learned about who has one.
SIGN_UP = read.one_of("EVENFALL_SIGN_UP", "open", ("open", "invitation"))

# --- weather ------------------------------------------------------------------------------------
# An open forecast service that needs no key, or off. It is told a place rounded to 0.1°, and only for households whose
# keeper has turned the forecast on (lawn/weather).
WEATHER = read.service("EVENFALL_WEATHER", "https://api.open-meteo.com")
WEATHER_ARCHIVE = read.service("EVENFALL_WEATHER_ARCHIVE", "https://archive-api.open-meteo.com")

# --- api ----------------------------------------------------------------------------------------
THROTTLE_RATES = {
    "sign_in_address": read.rate("EVENFALL_SIGN_IN_ADDRESS_RATE", "30/min"),
    "sign_in_email": read.rate("EVENFALL_SIGN_IN_EMAIL_RATE", "10/min"),
    "sign_up": read.rate("EVENFALL_SIGN_UP_RATE", "20/hour"),
    "invitation": read.rate("EVENFALL_INVITATION_RATE", "60/min"),
    "devices": read.rate("EVENFALL_DEVICES_RATE", "60/hour"),
    "invites": read.rate("EVENFALL_INVITES_RATE", "60/hour"),
    "photos": read.rate("EVENFALL_PHOTOS_RATE", "1200/min"),
    "calendar": read.rate("EVENFALL_CALENDAR_RATE", "120/min"),
    "calendar_links": read.rate("EVENFALL_CALENDAR_LINKS_RATE", "30/hour"),
    "weather": read.rate("EVENFALL_WEATHER_RATE", "60/min"),
    "weather_keeper": read.rate("EVENFALL_WEATHER_KEEPER_RATE", "30/hour"),
    "sync_phone": read.rate("EVENFALL_SYNC_PHONE_RATE", "120/min"),
    "sync_member": read.rate("EVENFALL_SYNC_MEMBER_RATE", "600/min"),
}
REST_FRAMEWORK = {
    "DEFAULT_RENDERER_CLASSES": ["rest_framework.renderers.JSONRenderer"],
    "DEFAULT_PARSER_CLASSES": ["api.parsers.SmallJSON"],
    "DEFAULT_AUTHENTICATION_CLASSES": ["api.origin.CookieSession"],
    "DEFAULT_PERMISSION_CLASSES": ["rest_framework.permissions.IsAuthenticated"],
    "DEFAULT_SCHEMA_CLASS": "drf_spectacular.openapi.AutoSchema",
    "EXCEPTION_HANDLER": "api.errors.handler",
    "NUM_PROXIES": NUM_PROXIES,
    "UNAUTHENTICATED_USER": "django.contrib.auth.models.AnonymousUser",
    "TEST_REQUEST_DEFAULT_FORMAT": "json",
    "DEFAULT_THROTTLE_RATES": THROTTLE_RATES,
}
SPECTACULAR_SETTINGS = {
    "TITLE": "Evenfall",
    "DESCRIPTION": "The book of the person who looks after the grass around a home.",
    "VERSION": "1",
    "SCHEMA_PATH_PREFIX": "/api/v1/",
    "SERVE_INCLUDE_SCHEMA": False,
    "SERVE_PUBLIC": True,
    "SERVE_PERMISSIONS": ["rest_framework.permissions.AllowAny"],
    "SERVE_AUTHENTICATION": [],
    "COMPONENT_SPLIT_REQUEST": True,
    "SORT_OPERATIONS": True,
}

# --- files and headers --------------------------------------------------------------------------
# Off, or a path under /admin/ that nobody guesses; the phone's worker leaves what is under /admin/ to the server.
ADMIN_PATH = read.hidden_path("EVENFALL_ADMIN")
STATIC_URL = "/static/"
WHITENOISE_USE_FINDERS = True  # the admin's few files, straight from the packages: nothing to collect
WHITENOISE_AUTOREFRESH = False
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [SELF],
        "script-src": [SELF, "'wasm-unsafe-eval'"],  # the engine is WebAssembly; no inline script
        "style-src": [SELF],
        "img-src": [SELF, "data:", "blob:"],
        "connect-src": [SELF],
        "worker-src": [SELF],
        "manifest-src": [SELF],
        "object-src": [NONE],
        "base-uri": [NONE],
        "form-action": [SELF],
        "frame-ancestors": [NONE],
    }
}
X_FRAME_OPTIONS = "DENY"
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"
CROSS_ORIGIN_RESOURCE_POLICY = "same-origin"
# What the app asks a browser for, and no more (https://www.w3.org/TR/permissions-policy/). Speech has no entry there.
PERMISSIONS_POLICY = {
    "geolocation": "(self)",
    "camera": "(self)",
    "screen-wake-lock": "(self)",
    **dict.fromkeys(
        (
            "accelerometer",
            "autoplay",
            "browsing-topics",
            "display-capture",
            "encrypted-media",
            "fullscreen",
            "gyroscope",
            "hid",
            "idle-detection",
            "magnetometer",
            "microphone",
            "midi",
            "payment",
            "publickey-credentials-get",
            "serial",
            "usb",
            "xr-spatial-tracking",
        ),
        "()",
    ),
}
SECURE_CONTENT_TYPE_NOSNIFF = True

# --- the installable app (django-pwa) -----------------------------------------------------------
PWA_SERVICE_WORKER_PATH = str(FRONTEND_DIST / "serviceworker.js")
PWA_APP_NAME = "Evenfall"
PWA_APP_DESCRIPTION = "Measure the ground, read the label, set the dial, walk it, write it down."
PWA_APP_THEME_COLOR = "#f7f1e3"
PWA_APP_BACKGROUND_COLOR = "#f7f1e3"
PWA_APP_DISPLAY = "standalone"
PWA_APP_SCOPE = PWA_APP_START_URL = PWA_APP_ROOT_URL = "/"
PWA_APP_ORIENTATION = "any"
PWA_APP_DEBUG_MODE = False
PWA_APP_LANG = "en"
PWA_APP_DIR = "ltr"
PWA_APP_ICONS = [
    {"src": "/icons/icon-192.png", "sizes": "192x192", "type": "image/png", "purpose": "any"},
    {"src": "/icons/icon-512.png", "sizes": "512x512", "type": "image/png", "purpose": "any"},
    {"src": "/icons/maskable-512.png", "sizes": "512x512", "type": "image/png", "purpose": "maskable"},
]
PWA_APP_ICONS_APPLE = [{"src": "/icons/apple-touch-180.png", "sizes": "180x180"}]
PWA_APP_SPLASH_SCREEN: list[dict[str, str]] = []

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "filters": {"discreet": {"()": "lawn.web.discretion.Discreet"}},
    "handlers": {"console": {"class": "logging.StreamHandler", "filters": ["discreet"]}},
    "root": {"handlers": ["console"], "level": "WARNING"},
}
