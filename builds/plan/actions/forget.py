"""A name taken out of the plans that are kept: they were made with it, and are never made again."""

from typing import Any

from builds.plan.models import Plan
from garage.models import Membership

KEPT = ("problem", "answer", "made_from")


def forget_name(member: Membership, *, name: str, nobody: str) -> None:
    """Wherever a plan calls this person, or says just his name."""
    key = f"person-{member.pk}"
    for plan in Plan.objects.in_garage(member.garage_id).iterator(chunk_size=10):
        told = {field: _without(getattr(plan, field), key, name, nobody) for field in KEPT}
        Plan.objects.filter(pk=plan.pk).update(**told)


def _without(value: Any, key: str, name: str, nobody: str) -> Any:
    if isinstance(value, dict):
        if value.get("id") == key and "name" in value:
            value = value | {"name": nobody}
        if isinstance(value.get(key), dict) and "called" in value[key]:
            value = value | {key: value[key] | {"called": nobody}}
        return {part: _without(inner, key, name, nobody) for part, inner in value.items()}
    if isinstance(value, list):
        return [_without(part, key, name, nobody) for part in value]
    return nobody if value == name else value
