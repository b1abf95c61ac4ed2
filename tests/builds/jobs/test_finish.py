"""A job is finished with what goes with it: the parts at hand go on, its readings are taken, or are left for later."""

from datetime import timedelta

import pytest
from django.utils import timezone

from builds.jobs import actions
from builds.readings.models.reading import Reading
from builds.shelf.actions import shelf
from builds.steps.actions import jobs, steps
from builds.work.models.job import Job
from builds.work.models.need import Need
from garage.actions.refused import Refused
from parts.actions.places import car_place
from parts.models import Balance, Move
from tests.builds.readings.reading_kit import limit, require, take
from tests.factories import NOW, HoldPointFactory, LinkFactory, NeedFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")
HOUR = timedelta(hours=1)
TOE = {"toe_front-value_fl": "0,05", "toe_front-value_fr": "0,06", "toe_front-instrument": "string box"}
LOADED = {"fuel_ml": "20", "driver": "aboard", "front_pa": "1,9", "rear_pa": "1,8", "floor": "levelled"}


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Badger")


@pytest.fixture
def place(cast):
    return PlaceFactory(garage=cast.garage, name="Bin 4")


def in_hand(car, cast, **more):
    told = {"title": "Refit the fan", "work": (30, 60, 90), "systems": ["exhaust"], **more}
    job = jobs.add(car, by=cast.owner, at=NOW, **told)
    steps.start(job, by=cast.helper, at=NOW)
    return job


def wanted(cast, job, place, many=2, **part):
    """So many of a part that lie on a shelf, wanted by the job."""
    nuts = PartFactory(garage=cast.garage, **{"name": "M8 flange nut", **part})
    shelf.carry_out(nuts, "receive", quantity=many, target=place, by=cast.owner, at=NOW)
    return NeedFactory(job=job, part=nuts, what=nuts.name, quantity=many)


def path(job):
    return f"/jobs/{job.pk}/finish/"


def on(car):
    return dict(Balance.objects.filter(place=car_place(car), quantity__gt=0).values_list("part__name", "quantity"))


def finish(client, job, **data):
    return client.press(path(job), {"told": "on", "stood": "in_hand", "nothing": "on", **data})


def said(client, answer):
    return [str(message) for message in client.get(answer["Location"]).context["messages"]]


def test_what_the_shelf_has_for_it_is_ticked_and_goes_on_with_the_finish(helper, cast, car, place):
    job = in_hand(car, cast)
    need = wanted(cast, job, place)
    form = helper.get(path(job)).context["form"]
    assert form.fields["parts"].choices == [(str(need.pk), "2 pieces of M8 flange nut, from Bin 4")]
    answer = finish(helper, job, parts=form["parts"].value())
    assert said(helper, answer) == ["“Refit the fan” is done."]
    assert on(car) == {"M8 flange nut": 2}
    move = Move.objects.get(verb="fit")
    assert (move.by, move.use.job, move.source) == (cast.helper, job, place)
    assert Need.objects.get(pk=need.pk).got_at == NOW


def test_what_was_pulled_for_it_goes_on_from_the_bench(helper, cast, car, place):
    job = in_hand(car, cast)
    need = wanted(cast, job, place)
    shelf.carry_out(need.part, "pull", quantity=2, source=place, job=job, by=cast.helper, at=NOW)
    form = helper.get(path(job)).context["form"]
    assert form["parts"].value() == [str(need.pk)]
    finish(helper, job, parts=[need.pk])
    assert Move.objects.get(verb="fit").source.kind == "bench"
    assert on(car) == {"M8 flange nut": 2}


def test_what_is_taken_off_stays_wanted_and_the_answer_says_so(helper, cast, car, place):
    job = in_hand(car, cast, rank="needed")
    wanted(cast, job, place)
    answer = finish(helper, job, parts=[])
    assert said(helper, answer) == ["“Refit the fan” is done. Not fitted: M8 flange nut."]
    assert on(car) == {}
    assert Need.objects.get().got_at is None


def test_one_tap_fits_nothing_and_measures_nothing(helper, cast, car, place):
    job = in_hand(car, cast, measures=["toe_front"])
    wanted(cast, job, place)
    answer = helper.press(path(job), {"stood": "in_hand"})
    assert said(helper, answer) == ["“Refit the fan” is done. Not fitted: M8 flange nut. Not measured yet: Front toe."]
    assert (on(car), Reading.objects.count()) == ({}, 0)


def test_a_part_that_wants_a_reason_is_not_ticked_but_said(helper, cast, car, place):
    job = in_hand(car, cast)
    need = wanted(cast, job, place, many=1, name="Old hub", condition="unknown", single=True)
    page = helper.get(path(job))
    assert "parts" not in page.context["form"].fields
    assert "Nobody knows the history of Old hub: write down why it may be fitted." in page.content.decode()
    assert f"/parts/{need.part_id}/move/fit/?job={job.pk}" in page.content.decode()
    assert finish(helper, job, parts=[need.pk]).status_code == 422
    finish(helper, job)
    assert on(car) == {}


def test_what_somebody_else_took_meanwhile_is_said_at_the_form_and_nothing_is_written(helper, cast, car, place):
    job = in_hand(car, cast)
    need = wanted(cast, job, place)
    shelf.carry_out(need.part, "lend", quantity=1, source=place, someone="Mill", by=cast.owner, at=NOW)
    answer = finish(helper, job, parts=[need.pk])
    assert answer.status_code == 422
    assert Job.objects.get(pk=job.pk).state == "in_hand"
    assert on(car) == {}


def test_what_came_and_went_straight_on_is_ticked_by_hand(helper, cast, car):
    job = in_hand(car, cast)
    need = NeedFactory(job=job, what="the second hose clip")
    form = helper.get(path(job)).context["form"]
    assert form["besides"].value() in (None, [])
    finish(helper, job, besides=[need.pk])
    assert Need.objects.get().got_at == NOW


def test_a_measuring_job_opens_its_fields_and_they_are_its_last_act(helper, cast, car):
    job = in_hand(car, cast, measures=["toe_front"], kinds=["jam_nut"])
    answer = finish(helper, job, nothing="", kinds=["jam_nut"], **TOE, **LOADED)
    assert said(helper, answer) == ["“Refit the fan” is done."]
    reading = Reading.objects.get()
    assert (reading.kind, reading.last_of, reading.by) == ("toe_front", job, cast.helper)
    assert (reading.instrument, reading.fuel_ml, reading.floor) == ("string box", 20_000, "levelled")
    assert {value.field: value.amount for value in reading.values.all()} == {"fl": 50, "fr": 60}


@pytest.mark.parametrize(
    ("typed", "wrong"),
    [
        ({"toe_front-value_fl": "0,05"}, "toe_front-value_fr"),
        ({**TOE, "toe_front-value_fl": "x"}, "toe_front-value_fl"),
    ],
)
def test_a_figure_that_is_wrong_keeps_all_of_it_from_being_written(helper, cast, car, place, typed, wrong):
    job = in_hand(car, cast, measures=["toe_front"])
    need = wanted(cast, job, place)
    answer = finish(helper, job, parts=[need.pk], **typed)
    assert answer.status_code == 422
    assert wrong in answer.context["form"].errors
    assert Job.objects.get(pk=job.pk).state == "in_hand"
    assert (on(car), Reading.objects.count()) == ({}, 0)


def test_a_doubtful_figure_is_asked_about_in_the_same_form(helper, cast, car):
    job = in_hand(car, cast, measures=["toe_front"])
    answer = finish(helper, job, **{**TOE, "toe_front-value_fl": "30"}, **LOADED)
    assert answer.status_code == 422
    (form,) = answer.context["form"].readings.each
    sure = form.fields["sure"].widget.choices[0][0]
    finish(helper, job, **{**TOE, "toe_front-value_fl": "30", "toe_front-sure": [sure]}, **LOADED)
    assert Reading.objects.count() == 1


def test_what_was_measured_since_it_began_is_not_asked_again(helper, cast, car):
    job = in_hand(car, cast, measures=["toe_front", "camber"])
    take(car, "camber", cast.helper)
    form = helper.get(path(job)).context["form"]
    assert [each.kind.key for each in form.readings.each] == ["toe_front"]
    corners = {f"camber-value_{corner}": "-1" for corner in ("fl", "fr", "rl", "rr")}
    # A form drawn before somebody else measured it: what was typed is not lost.
    finish(helper, job, **corners, **{"camber-instrument": "level"}, **LOADED)
    assert Reading.objects.filter(kind="camber").count() == 2


def test_the_job_that_measures_again_ends_by_its_form(helper, cast, car):
    require(car, cast.owner, "toe_front")
    limit(car, "toe_front")
    take(car, "toe_front", cast.owner, at=NOW - 2 * HOUR)
    rod = jobs.add(car, by=cast.owner, at=NOW - HOUR, title="Tie rod", work=(1, 2, 3), kinds=["jam_nut"])
    steps.finish(rod, by=cast.owner, at=NOW - HOUR)
    job = Job.objects.taking_again().get()
    steps.start(job, by=cast.helper, at=NOW)
    refused = helper.press(path(job), {"told": "on"})
    assert refused.status_code == 422
    answer = helper.press(path(job), {"told": "on", **TOE, **LOADED})
    assert said(helper, answer) == [f"“{job}” is done."]


def test_a_job_that_ends_with_its_part_is_told_what_was_opened_and_when(helper, cast, car, place):
    """What a car is owed: another part pays for it, and a bleed nipple was opened on the way."""
    hubs = PartFactory(garage=cast.garage, name="Hubs", single=True, systems=["wheels"])
    for verb, ends in (
        ("receive", {"target": place}),
        ("fit", {"source": place, "car": car}),
        ("pull", {"source": car_place(car)}),
    ):
        shelf.carry_out(hubs, verb, quantity=1, by=cast.owner, at=NOW - 9 * HOUR, **ends)
    job = Job.objects.get(title="Owed: Hubs")
    steps.start(job, by=cast.helper, at=NOW - 2 * HOUR)
    need = wanted(cast, job, place, many=1, name="Newer hubs", systems=["wheels"], condition="good")
    kinds = [*job.kinds, "hydraulics_opened"]
    moment = timezone.localtime(NOW - HOUR).strftime("%Y-%m-%dT%H:%M")
    answer = finish(helper, job, nothing="", kinds=kinds, parts=[need.pk], moment=moment)
    assert answer.status_code == 303, answer.context["form"].errors
    job.refresh_from_db()
    assert (job.state, job.finished_at, set(job.kinds)) == ("done", NOW - HOUR, set(kinds))
    assert job.owed.given_back == Move.objects.get(part=need.part, verb="fit")


def test_with_hold_points_it_stops_there_with_its_parts_on(helper, cast, car, place):
    job = in_hand(car, cast)
    HoldPointFactory(job=job, what="Fan turns freely")
    need = wanted(cast, job, place)
    answer = finish(helper, job, parts=[need.pk])
    assert said(helper, answer) == ["“Refit the fan” stops at its hold point until it is signed: Fan turns freely."]
    assert on(car) == {"M8 flange nut": 2}


def test_a_viewer_finishes_nothing(viewer, cast, car):
    assert viewer.press(path(in_hand(car, cast)), {"told": "on"}).status_code == 403


def test_cards_lead_to_the_form_where_there_is_something_to_say(helper, cast, car):
    plain, measuring = in_hand(car, cast, title="Polish the bonnet", systems=["body"]), jobs.add(
        car, by=cast.owner, at=NOW, title="Set toe", work=(30, 60, 90), measures=["toe_front"]
    )  # fmt: skip
    steps.start(measuring, by=cast.owner, at=NOW)
    page = helper.get(f"/cars/{car.pk}/").content.decode()
    assert f'href="/jobs/{measuring.pk}/finish/"' in page
    assert f'action="/jobs/{plain.pk}/finish/"' in page


def test_it_goes_on_with_the_next_in_the_same_form(helper, cast, car):
    job = in_hand(car, cast)
    after, other = (jobs.add(car, by=cast.owner, at=NOW, title=title, work=(30, 60, 90)) for title in ("B", "A"))
    LinkFactory(before=job, after=after)
    Job.objects.filter(pk=other.pk).update(recipe="brake-overhaul")
    form = helper.get(path(job)).context["form"]
    in_recipe = "A (Brake overhaul and bleed)"
    assert form.fields["then"].choices == [("", "nothing yet"), (after.pk, "B"), (other.pk, in_recipe)]
    Job.objects.filter(pk=other.pk).update(recipe="measure-again-2")
    form = helper.get(path(job)).context["form"]
    assert form.fields["then"].choices == [("", "nothing yet"), (after.pk, "B"), (other.pk, "A")]
    assert form["then"].value() is None
    answer = finish(helper, job, then=after.pk)
    assert said(helper, answer) == ["“Refit the fan” is done. “B” is in hand: Tove."]
    assert Job.objects.get(pk=after.pk).state == "in_hand"


def test_what_is_put_down_for_the_next_is_said(owner, cast, car):
    """Ines finishes what Tove had in hand, and goes on with the next: her own work is put down."""
    job, after = in_hand(car, cast), jobs.add(car, by=cast.owner, at=NOW, title="After", work=(30, 60, 90))
    own = jobs.add(VehicleFactory(garage=cast.garage), by=cast.owner, at=NOW, title="Flaps", work=(30, 60, 90))
    steps.start(own, by=cast.owner, at=NOW)
    assert said(owner, finish(owner, job, then=after.pk)) == [
        "“Refit the fan” is done. “After” is in hand: Ines. “Flaps” is put down."
    ]


@pytest.mark.parametrize("keeps", ["hold point", "cure", "another"])
def test_what_would_still_wait_is_not_offered_as_the_next(helper, cast, car, keeps):
    job, after = in_hand(car, cast), jobs.add(car, by=cast.owner, at=NOW, title="After", work=(30, 60, 90))
    LinkFactory(before=job, after=after, wait_minutes=60 if keeps == "cure" else 0)
    if keeps == "hold point":
        HoldPointFactory(job=job)
    if keeps == "another":
        LinkFactory(before=jobs.add(car, by=cast.owner, at=NOW, title="First", work=(30, 60, 90)), after=after)
    assert finish(helper, job, then=after.pk).status_code == 422
    assert Job.objects.get(pk=job.pk).state == "in_hand"
    with pytest.raises(Refused) as refused:
        actions.finish(job, by=cast.helper, at=NOW, kinds=[], then=after)
    assert refused.value.field == "then"
    assert Job.objects.get(pk=job.pk).state == "in_hand"
