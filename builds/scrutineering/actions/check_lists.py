"""Scrutineering lists: made for an entry, and what they are made from."""

from collections.abc import Iterable
from datetime import datetime

from django.db import transaction

from builds.scrutineering.engine.check_list import (
    FIRST_RUN,
    HAS,
    SCRUTINEERING,
    ListItem,
    load_items,
    own_items,
)
from builds.scrutineering.facts.wanted import ListSources
from builds.scrutineering.models.check import CarHas, CheckItem, CheckList, OrganiserList
from garage.access import OWNER
from garage.actions.refused import Refused
from garage.models import Entry, Garage, Membership, Vehicle


@transaction.atomic
def make(entry: Entry, *, by: Membership, at: datetime, kind: str = SCRUTINEERING) -> CheckList:
    """The entry's list of a kind, made now or brought up to date.

    What was ticked, failed or left out stays as it is; untouched items that the car or the
    organiser no longer asks for go.
    """
    if by.garage_id != entry.event.garage_id:
        raise Refused("The car is another garage's.")
    wanted, organiser = _wanted(entry, kind)
    checklist, _ = CheckList.objects.update_or_create(
        entry=entry,
        kind=kind,
        defaults={"organiser": organiser},
        create_defaults={"organiser": organiser, "made_by": by, "made_at": at},
    )
    there = {item.text: item for item in CheckItem.objects.filter(checklist=checklist)}
    for place, item in enumerate(wanted):
        old = there.pop(item.text, None)
        if old is None:
            _write(checklist, place, item)
        elif old.place != place:
            CheckItem.objects.filter(pk=old.pk).update(place=place)
    CheckItem.objects.filter(pk__in=[item.pk for item in there.values()]).untouched().delete()
    return checklist


def _wanted(entry: Entry, kind: str) -> tuple[tuple[ListItem, ...], str]:
    """The items, and whose own list is among them."""
    if kind == FIRST_RUN:
        return load_items(FIRST_RUN), ""
    sources = ListSources(entry.event.garage, [entry.vehicle])
    organiser = entry.event.organiser
    return sources.items(entry.vehicle_id, organiser), sources.organiser(organiser)


def _write(checklist: CheckList, place: int, item: ListItem) -> None:
    CheckItem.objects.create(
        checklist=checklist,
        place=place,
        key=item.key,
        section=item.section,
        text=item.text,
        systems=list(item.systems),
        kinds=list(item.kinds),
    )


@transaction.atomic
def say_has(vehicle: Vehicle, tags: Iterable[str], *, by: Membership) -> None:
    """Write down what a car has; lists made from now on leave out what is only for other cars.

    That is leaving items out, and the owner's alone; of a car of which nobody has said it, all counts.
    """
    tags = set(tags)
    said = CarHas.objects.filter(vehicle=vehicle).values_list("tags", flat=True).first()
    had = HAS if said is None else said
    gone = [words for tag, words in HAS.items() if tag in had and tag not in tags]
    if gone and by.role != OWNER:
        raise Refused(f"Only the owner says that {vehicle} does not have {gone[0]}.", "tags")
    CarHas.objects.update_or_create(vehicle=vehicle, defaults={"tags": sorted(tags)})


def keep_organiser(
    garage: Garage,
    *,
    at: datetime,
    name: str,
    text: str,
    with_shipped: bool,
    own: OrganiserList | None = None,
) -> OrganiserList:
    """An organiser's own list, new or changed. Raises Refused for text that holds no items."""
    try:
        own_items(text, name)
    except ValueError as wrong:
        raise Refused(str(wrong), "text") from wrong
    others = OrganiserList.objects.in_garage(garage).of(name)
    if others.exclude(pk=own.pk if own else None).exists():
        raise Refused(f"{name} has a list already: change that one.", "name")
    own = own or OrganiserList(garage=garage)
    own.name, own.text, own.with_shipped, own.changed_at = name, text, with_shipped, at
    own.save()
    return own
