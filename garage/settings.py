"""Settings, all from the environment (see .env.example); the defaults serve one garage at home."""

from pathlib import Path

from csp.constants import NONE, SELF

from garage import env

BASE_DIR = Path(__file__).resolve().parent.parent
DATA_DIR = Path(env.text("DATA_DIR") or BASE_DIR / "data")

DEBUG = env.flag("DEBUG", False)
HTTPS = env.flag("HTTPS", False)
SECRET_KEY = env.secret_key(DATA_DIR)
SECRET_KEY_FALLBACKS = env.words("SECRET_KEY_FALLBACKS")
ALLOWED_HOSTS = env.words("ALLOWED_HOSTS", "localhost,127.0.0.1,[::1]")
CSRF_TRUSTED_ORIGINS = env.words("CSRF_TRUSTED_ORIGINS")
# Where phones reach this garage, for QR codes and links; without it they lead to where the page was opened.
PUBLIC_URL = env.text("PUBLIC_URL", "").rstrip("/")
# What takes long (searches, sheets for the shelf) is done beside the server; off, inside the request.
PLAN_IN_BACKGROUND = env.flag("PLAN_IN_BACKGROUND", True)
# The server starts and ends the worker that does it; off where workers are run apart (`manage.py worker`).
WORKER_BESIDE = env.flag("WORKER_BESIDE", True)
TASKS = {"default": {"BACKEND": "django_tasks_db.DatabaseBackend"}}
# The queue's own migrations write to `default` whichever database is migrated, so that no backup could be
# restored beside it. Ours make the same table; `makemigrations --check` says when the package's changes.
MIGRATION_MODULES = {"django_tasks_database": "garage.queue.migrations"}

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "django_htmx",
    "csp",
    "django_tasks_db",
    "garage",
    "parts",
    "builds",
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "csp.middleware.CSPMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "garage.request_counts.counted",
    "garage.packed.Packed",
    "garage.middleware.errors",
    "garage.middleware.asked",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "garage.limits.limits",
    "garage.uploads.uploads",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "garage.middleware.sessions",
    "garage.middleware.SignInRequired",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "garage.middleware.member",
    "garage.middleware.answers",
]
ROOT_URLCONF = "garage.urls"
WSGI_APPLICATION = "garage.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": False,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.messages.context_processors.messages",
                "garage.http.page_context",
                "builds.cars.context.key_board",
            ],
            "loaders": [
                (
                    "django.template.loaders.cached.Loader",
                    [
                        "django.template.loaders.filesystem.Loader",
                        "django.template.loaders.app_directories.Loader",
                    ],
                ),
            ],
        },
    }
]
FORM_RENDERER = "garage.forms.choices_drawn.FormRenderer"

DATABASES = {"default": env.database(env.text("DATABASE_URL", "sqlite:///"), DATA_DIR)}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

AUTH_USER_MODEL = "garage.Person"
LOGIN_URL = "sign_in"
LOGIN_REDIRECT_URL = "today"
LOGOUT_REDIRECT_URL = "sign_in"
AUTH_PASSWORD_VALIDATORS = [
    {
        "NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator",
        "OPTIONS": {"user_attributes": ("name", "surname", "email")},
    },
    {
        "NAME": "django.contrib.auth.password_validation.MinimumLengthValidator",
        "OPTIONS": {"min_length": 10},
    },
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {"NAME": "django.contrib.auth.password_validation.NumericPasswordValidator"},
    {"NAME": "garage.passwords.NotTheGarage"},
]
SESSION_COOKIE_AGE = 14 * 24 * 3600
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = HTTPS
if HTTPS:
    SESSION_COOKIE_NAME, CSRF_COOKIE_NAME = "__Host-session", "__Host-csrf"
    SECURE_SSL_REDIRECT = True
    SECURE_HSTS_SECONDS = 365 * 24 * 3600
    # Whoever watches this machine from within it speaks to it without the proxy.
    SECURE_REDIRECT_EXEMPT = [r"^health/", r"^metrics$"]
    SECURE_HSTS_INCLUDE_SUBDOMAINS = SECURE_HSTS_PRELOAD = True
BEHIND_PROXY = env.flag("BEHIND_PROXY", False)
if BEHIND_PROXY:
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
CSRF_FAILURE_VIEW = "garage.views.faults.csrf_failed"
WHITENOISE_ALLOW_ALL_ORIGINS = False
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "img-src": [SELF, "blob:"],
        "connect-src": [SELF],
        "font-src": [SELF],
        "manifest-src": [SELF],
        "worker-src": [SELF],
        "form-action": [SELF],
        "frame-ancestors": [NONE],
        "base-uri": [NONE],
        "object-src": [NONE],
    }
}

LANGUAGE_CODE = "en-gb"
USE_I18N = False
TIME_ZONE = "UTC"
USE_TZ = True

REMEMBERS = True  # what pages rest on, until the next write (see garage/remembered.py)

STATIC_URL = "/static/"
STATICFILES_DIRS = [BASE_DIR / "static"]
STATIC_ROOT = DATA_DIR / "static"
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "whitenoise.storage.CompressedManifestStaticFilesStorage"},
}
REQUEST_COUNTS_DIR = DATA_DIR / "requests"
METRICS_TOKEN = env.token("METRICS_TOKEN")
BACKUP_DIR = Path(env.text("BACKUP_DIR") or DATA_DIR / "backups")
BACKUP_DAILY = env.flag("BACKUP_DAILY", True)
# Mail goes out where a server and a sender are set, and nowhere else.
EMAIL_HOST = env.text("MAIL_HOST")
EMAIL_PORT = env.number("MAIL_PORT", 587)
EMAIL_HOST_USER = env.text("MAIL_USER")
EMAIL_HOST_PASSWORD = env.text("MAIL_PASSWORD")
EMAIL_USE_TLS = env.flag("MAIL_TLS", True)
EMAIL_TIMEOUT = 20
DEFAULT_FROM_EMAIL = env.text("MAIL_FROM")
SENDS_MAIL = bool(EMAIL_HOST and DEFAULT_FROM_EMAIL)
PHOTO_DIR = DATA_DIR / "photos"  # reached through a view alone
PHOTO_MOST_OF_ONE = 200  # on one car, part or job
PHOTO_GARAGE_BYTES = 5 * 1024**3
PHOTO_DISK_FLOOR = 1024**3  # left free for the database, which matters more
DATA_UPLOAD_MAX_MEMORY_SIZE = 1024 * 1024
# Of one person in each web process, 0 for no end. Far beyond an evening's taps, and beyond the two hundred that a phone
# sends at once when it has signal again after an event's day.
MOST_A_MINUTE = {
    "saves": env.number("SAVES_A_MINUTE", 600),
    "searches": env.number("SEARCHES_A_MINUTE", 240),
    "uploads": env.number("UPLOADS_A_MINUTE", 120),
}
MOST_OF_A_GARAGE = 4  # times what one person may

# The terminal keeps what a person reads where the log has a file of its own, which is for programs.
LOG_FILE = env.text("LOG_FILE")
LOG_TO = (
    {"class": "logging.handlers.WatchedFileHandler", "filename": LOG_FILE, "delay": True, "encoding": "utf-8"}
    if LOG_FILE
    else {"class": "logging.NullHandler"}
)
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"plain": {"()": "garage.logs.PlainLine"}, "json": {"()": "garage.logs.JsonLine"}},
    "handlers": {
        "terminal": {
            "class": "logging.StreamHandler",
            "formatter": "json" if env.flag("LOG_JSON", False) else "plain",
            "level": "WARNING" if LOG_FILE else "INFO",
        },
        "log": {**LOG_TO, "formatter": "json"},
    },
    "root": {"handlers": ["terminal", "log"], "level": "WARNING"},
    "loggers": {
        "garage": {"level": "INFO"},
        "builds": {"level": "INFO"},
        "django": {"handlers": ["terminal", "log"], "level": "WARNING", "propagate": False},
        # A refused upload is no fault of ours: the access log has its 413.
        "django.security.TooMuch": {"handlers": [], "propagate": False},
        "django.server": {"handlers": ["terminal", "log"], "level": "INFO", "propagate": False},
    },
}
