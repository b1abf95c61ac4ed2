"""How many forms are sent until a car of the demo garage is fit: the pages are driven as people drive them.

An act is a form sent. The car is set up: its gear is in date, its parts are on the shelf, its limits are
written down; what is counted is the work, its readings, its parts, the looks at it and the list.
"""

from collections import Counter
from datetime import timedelta
from itertools import count

from django.contrib.messages import get_messages
from django.urls import reverse

from builds.needs.actions import needs
from builds.readings.engine.fields import CHECK, FIGURE
from builds.scrutineering.models.check import CheckItem
from builds.steps.facts.opened import asks
from builds.verdict.facts.verdict import verdict_of
from builds.work.facts.work import load_work
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.need import Need
from builds.work.models.owed import Owed
from garage.actions import gear
from garage.models import Gear, Membership, Station, Vehicle
from parts.actions import stock
from parts.actions.places import house_place
from parts.models import Balance, Place
from tests.conftest import signed_in
from tests.parts.factories import PartFactory

MINUTES = 10
# What is typed beside a reading, in the garage's units.
BESIDE = {
    "instrument": "the garage's own",
    "bars": "unhooked",
    "fuel_ml": "20",
    "driver": "aboard",
    "front_pa": "1,9",
    "rear_pa": "1,8",
    "floor": "levelled",
}
TYPED = {"wheel_torque": "95", "toe_front": "0,05", "pedal_travel": "40", "brake_bias": "60"}


class Walk:
    """One car, from its jobs to fit; `at_once` by the forms that take several things, else one by one."""

    def __init__(self, car: Vehicle, clock, *, at_once: bool) -> None:
        self.car, self.clock, self.at_once = car, clock, at_once
        people = Membership.objects.in_garage(car.garage).select_related("person")
        self.people = {member.name: member for member in people}
        self.clients = {name: signed_in(member) for name, member in self.people.items()}
        self.acts: Counter[str] = Counter()

    @property
    def total(self) -> int:
        return sum(self.acts.values())

    @property
    def item_by_item(self) -> int:
        """As many as if each item of the list were ticked by itself."""
        items = CheckItem.objects.filter(checklist__entry__vehicle=self.car).count()
        return self.total - self.acts["ticks"] + items

    def send(self, act: str, who: str, path: str, data=None) -> None:
        """One form, which must be taken."""
        answer = self.clients[who].press(path, data or {})
        wrong = answer.context["form"].errors if answer.status_code == 422 else answer.content[:300]
        assert answer.status_code == 303, (act, path, data, wrong)
        said = [str(message) for message in get_messages(answer.wsgi_request) if message.level_tag == "error"]
        assert not said, (act, path, data, said)
        self.acts[act] += 1
        self.clock.forward(minutes=MINUTES)

    def drawn(self, who: str, path: str):
        return self.clients[who].get(path).context["form"]

    def verdict(self):
        return verdict_of(Vehicle.objects.get(pk=self.car.pk), self.clock.at)

    def walk(self) -> None:
        """Until it is fit, or nothing more is done."""
        for _ in count():
            before = self.total
            self.sign()
            self.work()
            self.sign()
            if self.total == before:
                break
        self.stand()
        self.tick()

    # The work.

    def open_jobs(self) -> list[Job]:
        work = load_work(self.car.garage, self.clock.at)
        mine = [work.jobs[pk] for pk in work.order if work.jobs[pk].vehicle_id == self.car.pk]
        return [job for job in mine if job.state in ("open", "waiting") and not work.blocks(job.pk)]

    def work(self) -> None:
        in_hand = Job.objects.on(self.car).in_hand().first()
        for job in [in_hand] if in_hand else self.open_jobs()[:1]:
            if not in_hand:
                self.send("start", "Tove", reverse("job_start", args=[job.pk]))
            self.clock.forward(minutes=job.likely_minutes)
            if not self.at_once:
                self.readings(job)
                self.parts(job)
            self.finish(job)

    def finish(self, job: Job) -> None:
        job.refresh_from_db()
        if job.state != "in_hand":
            return  # measured again: it ended with the last of its readings
        path, data = reverse("job_finish", args=[job.pk]), {}
        if self.at_once or asks(job):
            form = self.drawn("Tove", path)
            data = {"told": "on", "stood": job.state}
            if "kinds" in form.fields:
                likely = [kind for kind, label in form.fields["kinds"].choices if isinstance(label, str)]
                data["kinds"] = list(job.kinds) or likely[:1] or ["spring_change"]
        if self.at_once:
            data |= {name: form[name].value() for name in ("parts",) if name in form.fields}
            data |= {"besides": [key for key, _ in form.fields["besides"].choices]} if "besides" in form.fields else {}
            data |= {name: BESIDE[name] for name in form.readings.fields if name in BESIDE}
            data |= {"then": form.fields["then"].choices[1][0]} if "then" in form.fields else {}
            for each in form.readings.each:
                data |= {f"{each.prefix}-{name}": text for name, text in figures(each.kind).items()}
                data |= {f"{each.prefix}-{name}": BESIDE[name] for name in each.of_each}
        self.send("finish", "Tove", path, data)

    def readings(self, job: Job) -> None:
        for key in job.measures:
            path = reverse("reading_add", args=[self.car.pk, key])
            form = self.drawn("Tove", path)
            data = figures(form.kind) | {name: text for name, text in BESIDE.items() if name in form.fields}
            last = {"last_of": job.pk} if "last_of" in form.fields else {}
            self.send("reading", "Tove", path, {**data, **last, "who": self.people["Tove"].pk})

    def parts(self, job: Job) -> None:
        for need in Need.objects.of(job).select_related("part"):
            if need.part is None:
                self.send("part", "Tove", reverse("need_got", args=[need.pk]))
                continue
            held = Balance.objects.held().filter(part=need.part).exclude(place__kind=Place.Kind.CAR)
            data = {"quantity": need.quantity, "source": held.get().place_id, "job": job.pk, "car": self.car.pk}
            self.send("part", "Tove", reverse("part_move", args=[need.part_id, "fit"]), data)

    # The looks.

    def sign(self) -> None:
        for point in HoldPoint.objects.filter(job__vehicle=self.car).reached():
            value = {"value": "as asked"} if point.asks else {}
            self.send("look", "Ines", reverse("hold_point_sign", args=[point.pk]), value)
        done = Job.objects.on(self.car).filter(state="done")
        for reason in self.verdict().reasons:
            if "nobody has signed it" in reason.sentence and done.filter(pk=reason.ref).exists():
                self.send("look", "Ines", reverse("job_sign", args=[reason.ref]))

    def stand(self) -> None:
        if Vehicle.objects.get(pk=self.car.pk).state != "driveable":
            stands = reverse("vehicle_state", args=[self.car.pk])
            self.send("stands", "Tove", stands, {"state": "driveable"})

    # The list.

    def tick(self) -> None:
        entry = self.car.entries.select_related("event").order_by("event__gates_at").first()
        self.send("list", "Tove", reverse("check_make", args=[entry.pk]))
        path = reverse("check_many", args=[entry.pk])
        sections = CheckItem.objects.filter(checklist__entry=entry).values_list("section", flat=True)
        for address in [path] if self.at_once else [f"{path}?section={one}" for one in dict.fromkeys(sections)]:
            form = self.drawn("Tove", address)
            by_section = form.fields["alone"].choices if "alone" in form.fields else []
            data = {"alone": [key for _, offered in by_section for key, _ in offered]}
            for each in form.each:
                data |= {f"{each.prefix}-all": "on", f"{each.prefix}-seen": each.initial["seen"]}
            self.send("ticks", "Tove", address, data)


def figures(kind) -> dict[str, str]:
    """What is typed for every value of that kind: in its limits, checks passed."""
    values = {}
    for field in kind.fields:
        typed = TYPED.get(kind.key, "1") if field.type == FIGURE else "1" if field.type == CHECK else "as before"
        values[f"value_{field.slug}"] = typed
    return values


def set_up(garage, car: Vehicle, at) -> None:
    """What no work changes: room, gear in date, parts on the shelf, another tie-rod end for the one that was lent."""
    Station.objects.filter(garage=garage, slug="bay").update(capacity=2)  # Heron stands stripped in it
    owner = Membership.objects.in_garage(garage).get(role="owner")
    supplier = house_place(garage, "supplier")
    shelf = Place.objects.in_garage(garage).get(name="Back wall, low")
    for owed in Owed.objects.filter(vehicle=car).open().select_related("move__part", "job"):
        like = owed.move.part
        spare = PartFactory(garage=garage, name=f"{like}, new", systems=like.systems, condition="new")
        stock.move(spare, "receive", 1, supplier, shelf, by=owner, at=at)
        needs.add(owed.job, at=at, what=str(spare), part=spare)
    for need in Need.objects.filter(job__vehicle=car, part__isnull=False).select_related("part"):
        held = Balance.objects.held().filter(part=need.part)
        place = held.first().place if held.exists() else shelf
        if place.kind != Place.Kind.BENCH and not need.part.single:
            stock.move(need.part, "receive", 1000, supplier, place, by=owner, at=at)
    Gear.objects.filter(garage=garage, kind="helmet").delete()
    until = (at + timedelta(days=400)).date().replace(day=1)
    gear.add(
        garage, at=at, vehicle=None, member=owner, kind="helmet", name="New helmet", standard="", meaning="until",
        label="Valid until", printed_on=until, precision="month",
    )  # fmt: skip
