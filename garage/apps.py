"""The garage app."""

from django.apps import AppConfig


class GarageConfig(AppConfig):
    name = "garage"

    def ready(self) -> None:
        from garage import checks  # noqa: F401  (importing registers the system checks)
