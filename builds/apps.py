"""The builds app."""

from typing import Any

from django.apps import AppConfig


class BuildsConfig(AppConfig):
    name = "builds"

    def ready(self) -> None:
        from garage.writes import written

        written.connect(_follow, dispatch_uid="the plan follows")


def _follow(garage: int, **more: Any) -> None:
    """After the commit of a write."""
    from builds.plan.actions.follow import follow_write
    from garage import clock
    from garage.background import beside

    beside(lambda: follow_write(garage, at=clock.now()))
