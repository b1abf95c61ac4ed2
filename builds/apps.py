"""The builds app."""

from typing import Any

from django.apps import AppConfig


class BuildsConfig(AppConfig):
    name = "builds"

    def ready(self) -> None:
        from garage.actions.erase import erased
        from garage.writes import written

        written.connect(_follow, dispatch_uid="the plan follows")
        erased.connect(_forget, dispatch_uid="kept plans forget a name")


def _follow(garage: int, **more: Any) -> None:
    """After the commit of a write."""
    from builds.plan.actions.follow import follow_write
    from garage import clock
    from garage.background import beside

    beside(lambda: follow_write(garage, at=clock.now()))


def _forget(member: Any, name: str, nobody: str, **more: Any) -> None:
    """In the transaction that erases somebody."""
    from builds.plan.actions.forget import forget_name

    forget_name(member, name=name, nobody=nobody)
