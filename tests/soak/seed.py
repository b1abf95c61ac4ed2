"""`python -m tests.soak.seed WRITERS`: the demo garage with people who write, and what they write about, as JSON."""

import json
import sys
from typing import Any


def main() -> None:
    import django

    django.setup()
    print(json.dumps(seeded(int(sys.argv[1]))))


def seeded(writers: int) -> dict[str, Any]:
    """Each has a link that signs in, a job, a car and items of a list of his own; parts are everybody's."""
    from builds.demo.actions.garage import load_demo
    from builds.scrutineering.actions import check_lists
    from builds.scrutineering.models.check import CheckItem
    from builds.steps.actions import jobs
    from garage import clock
    from garage.actions import people, sign_in
    from garage.models import Entry, Membership
    from parts.actions import stock
    from parts.actions.places import house_place, new_code
    from parts.models import Part, Place

    at = clock.now()
    garage = load_demo(at=at)
    owner = Membership.objects.in_garage(garage).owners().first()
    cars = list(garage.vehicles.order_by("pk"))
    entry = Entry.objects.in_garage(garage).upcoming(at).first()
    check_lists.make(entry, by=owner, at=at)
    open_items = CheckItem.objects.filter(checklist__entry__event=entry.event_id, state="open")
    items = list(open_items.order_by("pk").values_list("pk", flat=True))
    shelf = Place.objects.create(garage=garage, kind="shelf", name="Soak shelf", code=new_code())
    parts = []
    for number in range(3):
        part = Part.objects.create(
            garage=garage, code=new_code(), name=f"Soak bolt {number}", condition="new", made_at=at
        )
        stock.move(part, "receive", 1000, house_place(garage, "supplier"), shelf, by=owner, at=at)
        parts.append(part.pk)
    house_place(garage, "bench")
    rows = []
    for number in range(writers + 1):
        member = people.add(
            garage, role="helper", works=True, may_sign=True, skills=[], name=f"Writer {number}", surname="", email=None
        )
        car = cars[number % len(cars)]
        job = jobs.add(
            car, by=owner, at=at, title=f"Soak bracket {number}", work=(20, 40, 90),
            systems=["body"], kinds=[], rank="wanted", stations={},
        )  # fmt: skip
        rows.append(
            {
                "member": member.pk,
                "person": member.person_id,
                "token": sign_in.make_link(member.person, lasts=sign_in.OWN_LINK, at=at),
                "car": car.pk,
                "job": job.pk,
                "items": items[number::writers],  # of the last one none, who only sends pictures
            }
        )
    return {
        "garage": garage.pk, "event": entry.event_id, "entry": entry.pk, "parts": parts,
        "shelf": shelf.pk, "bench": house_place(garage, "bench").pk, "uploader": rows.pop(), "writers": rows,
    }  # fmt: skip


if __name__ == "__main__":
    main()
