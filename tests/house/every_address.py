"""Every address, whom it serves and how, and a garage with one row of everything that addresses name."""

from django.urls import reverse

from builds.cure.models.shop import HeatedHours, TemperatureReading
from builds.plan.actions.follow import make_plan
from builds.plan.models import Search
from builds.remedies.actions import trials
from builds.remedies.deeds.again import AgainDeed
from builds.work.models.link import StationHold
from garage.actions import shares
from garage.models import DayHours, Device
from tests.factories import (
    NOW,
    EntryFactory,
    EventFactory,
    HoldPointFactory,
    JobFactory,
    LinkFactory,
    NeedFactory,
    StationFactory,
    VehicleFactory,
)
from tests.house.addresses import ADDRESSES
from tests.house.addresses import rows as room_rows

WHO = ("owner", "helper", "viewer", "stranger", "nobody")
GOOD = {200, 303, 422}
# What each kind of page answers, in the order of WHO. A stranger owns another garage: where a
# page names a row he finds nothing, elsewhere he gets his own.
READS = (GOOD, GOOD, GOOD, {404}, {302})
READS_OWN = (GOOD, GOOD, GOOD, GOOD, {302})
WORKS = (GOOD, GOOD, {403}, {404}, {302})
WORKS_OWN = (GOOD, GOOD, {403}, GOOD, {302})
ARRANGES = (GOOD, {403}, {403}, {404}, {302})
ARRANGES_OWN = (GOOD, {403}, {403}, GOOD, {302})
# A calendar is its maker's and the owner's; nobody else finds it.
ARRANGES_FOUND = (GOOD, {404}, {404}, {404}, {302})
OPEN = (GOOD | {302}, GOOD | {302}, GOOD | {302}, GOOD | {302}, GOOD)
GONE = ({404}, {404}, {404}, {404}, {404})
ONLY_NEW = ({404}, {404}, {404}, {404}, {302})
DEMO = ({403, 404, 303}, {403, 404, 303}, {403, 404, 303}, {403, 404, 303}, {302})
# Where other people's garages are kept too, as in this table's, no page makes backups of them all.
ONE_GARAGE = ({403}, {403}, {403}, {403}, {302})
# Of a viewer who is in this garage alone: his own, and the owner's.
OWN = (GOOD, {403}, GOOD, {404}, {302})
OWN_HOURS = (GOOD, {403}, {403}, {404}, {302})

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
TABLE = (
    {
        "today": ("", READS_OWN, "read"),
        "demo_load": ("", DEMO, "send"),
        "demo_leave": ("", READS_OWN, "send"),
        "garage_seen": ("", READS_OWN, "read"),
        "garage_choose": ("garage", READS, "send"),
        "vehicle_list": ("", READS_OWN, "read"),
        "vehicle_add": ("", ARRANGES_OWN, "form"),
        "vehicle_page": ("vehicle", READS, "read"),
        "vehicle_edit": ("vehicle", ARRANGES, "form"),
        "vehicle_state": ("vehicle", WORKS, "send"),
        "vehicle_go": ("vehicle", ARRANGES, "send"),
        "event_list": ("", READS_OWN, "read"),
        "event_add": ("", ARRANGES_OWN, "form"),
        "event_page": ("event", READS, "read"),
        "event_edit": ("event", ARRANGES, "form"),
        "event_delete": ("event", ARRANGES, "form"),
        "entry_add": ("event", ARRANGES, "form"),
        "entry_edit": ("entry", ARRANGES, "form"),
        "entry_delete": ("entry", ARRANGES, "form"),
        "checklist_sheet": ("entry", READS, "read"),
        "remedy_list": ("entry", READS, "read"),
        "remedy_more": ("entry", READS, "read"),
        "remedy_odds": ("entry", READS, "read"),
        "remedy_apply": ("entry", WORKS, "send"),
        "share_add": ("?vehicle", ARRANGES, "form"),
        "share_revoke": ("share", ARRANGES, "send"),
        "share_page": ("token", GONE, "door"),
        "job_add": ("vehicle", WORKS, "form"),
        "job_paste": ("vehicle", WORKS, "form"),
        "job_seen": ("vehicle", WORKS, "form"),
        "job_page": ("job", READS, "read"),
        "link_delete": ("link", WORKS, "send"),
        "link_edit": ("link", WORKS, "form"),
        "link_cut": ("link", WORKS, "form"),
        "station_hold_delete": ("station_hold", WORKS, "send"),
        "station_hold_free": ("station_hold", ARRANGES, "form"),
        "hold_point_sign": ("hold_point", WORKS, "form"),
        "hold_point_delete": ("hold_point", ARRANGES, "send"),
        "need_add": ("job", WORKS, "form"),
        "need_take": ("job", WORKS, "send"),
        "need_edit": ("need", WORKS, "form"),
        "need_got": ("need", WORKS, "send"),
        "need_delete": ("need", WORKS, "send"),
        "cure_sand": ("job", WORKS, "send"),
        "shop_page": ("", READS_OWN, "read"),
        "shop_read": ("", WORKS_OWN, "form"),
        "shop_forget": ("temperature", WORKS, "send"),
        "shop_days": ("", WORKS_OWN, "form"),
        "shop_heat": ("", WORKS_OWN, "form"),
        "shop_unheat": ("heated", WORKS, "send"),
        "product_list": ("", READS_OWN, "read"),
        "product_add": ("", ARRANGES_OWN, "form"),
        "product_page": ("product", READS_OWN, "read"),
        "product_edit": ("product", ARRANGES_OWN, "form"),
        "product_reset": ("product", ARRANGES_OWN, "send"),
        "plan_page": ("", READS_OWN, "read"),
        "plan_odds": ("", READS_OWN, "read"),
        "plan_search": ("", WORKS_OWN, "send"),
        "plan_progress": ("search", READS, "read"),
        "plan_stop": ("search", WORKS, "send"),
        "trial_add": ("", WORKS_OWN, "form"),
        "trial_page": ("trial", READS, "read"),
        "trial_keep": ("trial", WORKS, "send"),
        "trial_drop": ("trial", WORKS, "send"),
        "find_page": ("", READS_OWN, "read"),
        "recipe_list": ("", READS_OWN, "read"),
        "recipe_page": ("recipe", READS_OWN, "read"),
        "recipe_put": ("recipe", WORKS_OWN, "form"),
        "recipe_put_several": ("", WORKS_OWN, "form"),
        "recipe_edit": ("recipe", ARRANGES_OWN, "form"),
        "recipe_reset": ("recipe", ARRANGES_OWN, "send"),
        "sign_in": ("", OPEN, "door"),
        "sign_out": ("", OPEN, "door"),
        "sign_in_link": ("token", GONE, "door"),
        "account_page": ("", READS_OWN, "form"),
        "account_sign_in": ("", READS_OWN, "form"),
        "account_elsewhere": ("", READS_OWN, "send"),
        "device_end": ("device", OWN, "send"),
        "first_run": ("", ONLY_NEW, "form"),
        "garage_settings": ("", ARRANGES_OWN, "form"),
        "backup_list": ("", ONE_GARAGE, "read"),
        "backup_add": ("", ONE_GARAGE, "send"),
        "garage_export": ("", ARRANGES_OWN, "read"),
        "garage_export_file": ("", ARRANGES_OWN, "read"),
        "garage_server": ("", ONE_GARAGE, "read"),
        "health": ("", OPEN, "read"),
        "health_live": ("", OPEN, "read"),
        "health_metrics": ("", OPEN, "read"),
        "health_ready": ("", OPEN, "read"),
        "person_list": ("", READS_OWN, "read"),
        "person_add": ("", ARRANGES_OWN, "form"),
        "person_page": ("person", READS, "read"),
        "person_edit": ("person", ARRANGES, "form"),
        "person_delete": ("person", ARRANGES, "send"),
        "person_data": ("person", OWN, "read"),
        "person_erase": ("person", ARRANGES, "form"),
        "person_link": ("person", ARRANGES, "form"),
        "person_sign_out": ("person", ARRANGES, "send"),
        "skill_add": ("", ARRANGES_OWN, "form"),
        "hours_edit": ("person", OWN_HOURS, "form"),
        "hours_tonight": ("person", OWN_HOURS, "form"),
        "day_hours_add": ("person", OWN_HOURS, "form"),
        "day_hours_delete": ("day", OWN_HOURS, "send"),
        "station_list": ("", READS_OWN, "read"),
        "station_add": ("", ARRANGES_OWN, "form"),
        "station_edit": ("station", ARRANGES, "form"),
        "station_delete": ("station", ARRANGES, "send"),
    }
    | {
        f"job_{step}": ("job", WORKS, "form")
        for step in (
            *("edit", "start", "stop", "hold", "release", "finish", "sign", "reopen", "drop", "whole"),
            "found",
        )
    }
    | dict.fromkeys(("link_add", "station_hold_add", "hold_point_add"), ("job", WORKS, "form"))
    | {name: (what, globals()[whom], kind) for name, (what, whom, kind) in ADDRESSES.items()}
)


def make_rows(cast):
    vehicle = VehicleFactory(garage=cast.garage)
    event = EventFactory(garage=cast.garage)
    job = JobFactory(vehicle=vehicle, made_by=cast.owner)
    station = StationFactory(garage=cast.garage)
    link = LinkFactory(before=job, after=JobFactory(vehicle=vehicle, made_by=cast.owner))
    return {
        "garage": cast.garage.pk,
        "vehicle": vehicle.pk,
        "event": event.pk,
        "entry": EntryFactory(event=event, vehicle=vehicle).pk,
        "share": shares.make(by=cast.owner, at=NOW, days=3, vehicle=vehicle)[0].pk,
        "job": job.pk,
        "link": link.pk,
        "station": station.pk,
        "station_hold": StationHold.objects.create(station=station, first=link.before, last=link.after).pk,
        "hold_point": HoldPointFactory(job=link.after).pk,
        "plan": make_plan(cast.garage, at=NOW).pk,
        "trial": trials.make((AgainDeed(),), by=cast.owner, at=NOW).pk,
        "search": Search.objects.create(
            garage=cast.garage, began_at=NOW, seen_at=NOW, ended_at=NOW, budget_seconds=1
        ).pk,
        "recipe": "brake-overhaul",
        "product": "epoxy-primer",
        "need": NeedFactory(job=job).pk,
        "temperature": TemperatureReading.objects.create(garage=cast.garage, at=NOW, air_mc=12_000, by=cast.viewer).pk,
        "heated": HeatedHours.objects.create(
            garage=cast.garage, weekday=1, from_minute=1080, until_minute=1320, warm_mc=18_000
        ).pk,
        "person": cast.viewer.pk,
        "day": DayHours.objects.create(member=cast.viewer, day=NOW.date(), kind="off").pk,
        "device": Device.objects.create(
            person=cast.viewer.person, session_key="elsewhere", signed_in_at=NOW, seen_at=NOW
        ).pk,
        "token": "x" * 27,
        **room_rows(cast),
    }


def address(name, what, rows):
    if what.startswith("?"):
        return f"{reverse(name)}?{what[1:]}={rows[what[1:]]}"
    named = rows[what] if what else ()
    return reverse(name, args=named if isinstance(named, tuple) else [named])
