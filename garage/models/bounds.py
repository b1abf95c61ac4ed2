"""Check constraints: SQLite keeps neither lengths nor ranges by itself."""

from collections.abc import Iterable

from django.db.models import CharField, CheckConstraint, F, Q, TextField
from django.db.models.functions import Length

for field in (CharField, TextField):
    field.register_lookup(Length)


def text_within(model: str, field: str, most: int, least: int = 0) -> CheckConstraint:
    return CheckConstraint(
        condition=Q(**{f"{field}__length__gte": least, f"{field}__length__lte": most}),
        name=f"{model}_{field}_length",
    )


def number_within(model: str, field: str, least: int, most: int) -> CheckConstraint:
    return CheckConstraint(
        condition=Q(**{f"{field}__gte": least, f"{field}__lte": most}) | Q(**{f"{field}__isnull": True}),
        name=f"{model}_{field}_range",
    )


def one_of(model: str, field: str, values: Iterable[str]) -> CheckConstraint:
    # Plain words, since a migration would import the enumeration that a member comes from.
    plain = [str(value) for value in values]
    return CheckConstraint(condition=Q(**{f"{field}__in": plain}), name=f"{model}_{field}_known")


def in_order(model: str, first: str, last: str) -> CheckConstraint:
    return CheckConstraint(condition=Q(**{f"{first}__lt": F(last)}), name=f"{model}_{first}_before_{last}")
