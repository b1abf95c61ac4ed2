"""The settings as they are, with a watch on how long each write keeps others waiting."""

from garage import env
from garage.settings import *  # noqa: F403 (as they are)
from garage.settings import INSTALLED_APPS, MIDDLEWARE, STORAGES

INSTALLED_APPS = [*INSTALLED_APPS, "tests.soak.watch.Watch"]
MIDDLEWARE = [*MIDDLEWARE, "tests.soak.watch.named"]
if env.flag("SOAK_PLAIN", False):  # the short one, for which no static files are collected
    STORAGES = {
        **STORAGES,
        "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
    }
