"""What is not begun on a car while something else is in hand on it: each refusal a sentence."""

from datetime import timedelta

import pytest

from builds.plan.facts.problem import build_problem
from builds.steps.actions import jobs, steps
from builds.work.facts.room_now import room_now
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.builds.events.night_kit import make_fair
from tests.builds.plan.plan_kit import evenings, job, planned
from tests.factories import NOW, JobStationFactory, StationFactory, VehicleFactory
from tests.pages import words

pytestmark = pytest.mark.usefixtures("now")
RUNS = "“Warm it up” on Wren is in hand: nobody has his hands in a car whose engine runs."


@pytest.fixture
def wren(cast):
    return VehicleFactory(garage=cast.garage, name="Wren")


@pytest.fixture
def warm(wren, cast):
    return job(wren, cast, "Warm it up", kinds=["engine_run"])


@pytest.fixture
def wheels(wren, cast):
    return job(wren, cast, "Wheels off", kinds=["wheel_off"])


@pytest.fixture
def weld(wren, cast):
    return job(wren, cast, "Weld the patch in", kinds=["hot_work"])


def begin(row, by, at=NOW, **more):
    return steps.start(Job.objects.get(pk=row.pk), by=by, at=at, **more)


def refused(row, by, **more):
    with pytest.raises(Refused) as why:
        begin(row, by, **more)
    row.refresh_from_db()
    assert row.state in ("open", "waiting")
    return str(why.value)


@pytest.mark.parametrize("kind", ["engine_run", "driven"])
def test_nothing_is_begun_on_a_car_whose_engine_runs_not_even_by_the_owner(cast, warm, wheels, kind):
    Job.objects.filter(pk=warm.pk).update(kinds=[kind])
    begin(warm, cast.helper)
    assert refused(wheels, cast.owner) == RUNS
    assert begin(wheels, cast.owner, crew=[cast.owner, cast.helper]) == ["“Warm it up” is put down."]


def test_no_engine_is_run_while_somebody_is_at_the_car(cast, warm, wheels):
    begin(wheels, cast.helper)
    assert refused(warm, cast.owner) == (
        "“Wheels off” on Wren is in hand: nobody has his hands in a car whose engine runs."
    )
    steps.stop(Job.objects.get(pk=wheels.pk), by=cast.helper, at=NOW)
    begin(warm, cast.owner)


def test_one_engine_runs_for_one_job(cast, wren, warm):
    begin(warm, cast.helper)
    assert refused(job(wren, cast, "Try the master switch", kinds=["engine_run"]), cast.owner) == RUNS


def test_another_car_is_another_engine_and_what_waits_by_itself_has_no_hands_in_it(cast, wren, warm):
    begin(warm, cast.helper)
    begin(job(VehicleFactory(garage=cast.garage, name="Heron"), cast, "Wheels off"), cast.owner)
    begin(job(wren, cast, "Let the paint harden", hands=0), cast.owner)


def test_whoever_runs_the_engine_himself_puts_that_down_and_is_told(cast, warm, wheels):
    begin(warm, cast.owner)
    assert begin(wheels, cast.owner) == ["“Warm it up” is put down."]
    assert begin(warm, cast.owner) == ["“Wheels off” is put down."]


def test_what_goes_on_without_one_of_its_hands_is_told(cast, wren, wheels):
    begin(wheels, cast.owner, crew=[cast.owner, cast.helper])
    assert begin(job(wren, cast, "Sort the bolts"), cast.owner) == ["“Wheels off” goes on with Tove."]


@pytest.mark.parametrize("kind", ["fuel_drained", "fuel_line"])
@pytest.mark.parametrize("hot", ["hot_work", "chassis_weld"])
@pytest.mark.parametrize("same", [True, False])
def test_sparks_and_open_fuel_are_kept_apart_whoever_has_them_in_hand(cast, wren, weld, kind, hot, same):
    Job.objects.filter(pk=weld.pk).update(kinds=[hot])
    fuel = job(wren, cast, "Drain the tank", kinds=[kind])
    other = cast.helper if same else cast.owner
    begin(weld, cast.helper)
    assert refused(fuel, other) == "“Weld the patch in” on Wren is in hand: no sparks near open fuel."
    steps.stop(Job.objects.get(pk=weld.pk), by=cast.helper, at=NOW)
    begin(fuel, cast.helper)
    assert refused(weld, other) == "“Drain the tank” on Wren is in hand: no sparks near open fuel."


FLY = "nobody else has his hands in a car on which sparks fly."


@pytest.mark.parametrize("hot", ["hot_work", "chassis_weld"])
def test_nobody_else_has_his_hands_in_a_car_on_which_sparks_fly(cast, wren, weld, hot):
    """Another car is another matter, and so is a weld at the bench."""
    Job.objects.filter(pk=weld.pk).update(kinds=[hot])
    coils = job(wren, cast, "Swap the coilovers", kinds=["spring_damper"])
    begin(weld, cast.helper)
    assert refused(coils, cast.owner) == f"“Weld the patch in” on Wren is in hand: {FLY}"
    assert refused(job(wren, cast, "Grind the sill", kinds=["hot_work"]), cast.owner).endswith(FLY)
    begin(job(VehicleFactory(garage=cast.garage, name="Badger"), cast, "Its pads"), cast.owner)
    steps.stop(Job.objects.get(pk=weld.pk), by=cast.helper, at=NOW)
    begin(coils, cast.owner)
    assert refused(weld, cast.helper) == f"“Swap the coilovers” on Wren is in hand: {FLY}"
    begin(job(wren, cast, "Weld the arm at the bench", kinds=["part_weld"]), cast.helper)


def test_whoever_is_at_the_car_himself_puts_that_down_for_the_weld(cast, wheels, weld):
    begin(wheels, cast.helper)
    assert begin(weld, cast.helper) == ["“Wheels off” is put down."]
    assert refused(wheels, cast.helper).startswith("“Weld the patch in” on Wren is in hand, and is not left half done")


OPEN = "“Renew the fuel hoses” on Badger is begun and not done: no sparks near open fuel."


@pytest.mark.parametrize("sparks", ["hot_work", "part_weld"])
def test_fuel_that_was_left_open_keeps_sparks_from_every_car_in_the_shop(cast, wren, weld, owner, sparks):
    Job.objects.filter(pk=weld.pk).update(kinds=[sparks])
    hoses = job(VehicleFactory(garage=cast.garage, name="Badger"), cast, "Renew the fuel hoses", kinds=["fuel_line"])
    begin(hoses, cast.helper)
    assert refused(weld, cast.owner) == "“Renew the fuel hoses” on Badger is in hand: no sparks near open fuel."
    steps.stop(Job.objects.get(pk=hoses.pk), by=cast.helper, at=NOW)
    assert refused(weld, cast.owner) == OPEN
    begin(job(VehicleFactory(garage=cast.garage, name="Heron"), cast, "Sort the bolts"), cast.owner)
    for path in (f"/jobs/{weld.pk}/", f"/cars/{wren.pk}/"):
        assert OPEN in words(owner.get(path).content.decode()), path
    Job.objects.filter(pk=hoses.pk).update(state="held")
    assert refused(weld, cast.owner) == OPEN
    Job.objects.filter(pk=hoses.pk).update(finished_at=NOW)  # all that is left is to look at it
    begin(weld, cast.owner)


def test_another_shop_of_air_is_not_the_same_shop_but_the_same_car_is(cast, wren, weld):
    yard = StationFactory(garage=cast.garage, slug="driveway", name="Yard")
    hoses = job(VehicleFactory(garage=cast.garage, name="Badger"), cast, "Renew the fuel hoses", kinds=["fuel_line"])
    JobStationFactory(job=weld, station=yard)
    begin(hoses, cast.helper)
    begin(weld, cast.owner)
    steps.stop(Job.objects.get(pk=weld.pk), by=cast.owner, at=NOW)
    tank = job(wren, cast, "Drain the tank", kinds=["fuel_drained"], state="waiting")
    assert refused(weld, cast.owner) == "“Drain the tank” on Wren is begun and not done: no sparks near open fuel."
    Job.objects.filter(pk=tank.pk).update(state="open")
    begin(weld, cast.owner)


SPRAYED = "nobody else works in the shop while two-pack paint is sprayed, and until the air has cleared"


@pytest.fixture
def fan(cast):
    return job(VehicleFactory(garage=cast.garage, name="Badger"), cast, "Fit the fan")


@pytest.fixture
def paint(wren, cast):
    return job(wren, cast, "Paint the arm", kinds=["two_pack"])


def test_nothing_is_begun_in_the_shop_while_two_pack_paint_is_sprayed_nor_until_the_air_has_cleared(
    cast, paint, fan, owner
):
    evenings(cast.owner, since=0, until=24)
    begin(paint, cast.helper)
    assert refused(fan, cast.owner) == f"“Paint the arm” on Wren is in hand: {SPRAYED}."
    steps.stop(Job.objects.get(pk=paint.pk), by=cast.helper, at=NOW)
    still = f"“Paint the arm” on Wren went on a moment ago: {SPRAYED}, in about"
    guess = "That is a guess: the sheet of the paint says how long."
    assert refused(fan, cast.owner) == f"{still} 30 min. {guess}"
    for path in (f"/jobs/{fan.pk}/", f"/cars/{fan.vehicle_id}/"):
        assert f"{still} 30 min. {guess}" in words(owner.get(path).content.decode()), path
    (begins,) = (one for one in build_problem(cast.garage, NOW)[0].jobs if one.title == "Fit the fan")
    assert begins.earliest == 2
    assert begins.waits_for == "the air to clear after “Paint the arm”, about Tue 17:30"
    assert refused(fan, cast.owner, at=NOW + timedelta(minutes=29, seconds=1)) == f"{still} 1 min. {guess}"
    assert not room_now(cast.garage.pk, NOW - timedelta(minutes=1)).clearing
    begin(fan, cast.owner, at=NOW + timedelta(minutes=30))
    assert refused(paint, cast.helper) == f"“Fit the fan” on Badger is in hand: {SPRAYED}."


def test_one_who_sprays_alone_sprays(cast, paint, wheels):
    begin(wheels, cast.helper)
    assert begin(paint, cast.helper) == ["“Wheels off” is put down."]


def test_outside_and_in_the_paddock_the_air_is_free(cast, paint, fan):
    JobStationFactory(job=fan, station=StationFactory(garage=cast.garage, slug="driveway", name="Yard"))
    begin(paint, cast.helper)
    begin(fan, cast.owner)
    steps.stop(Job.objects.get(pk=fan.pk), by=cast.owner, at=NOW)
    fair = make_fair(cast)
    assert refused(fair.hub, cast.owner) == f"“Paint the arm” on Wren is in hand: {SPRAYED}."
    fair.overnight()
    begin(fair.hub, cast.owner)


def test_what_is_put_on_the_car_during_the_weld_comes_before_it_and_waits_for_it_to_be_put_down(cast, wren, owner):
    more = {"by": cast.owner, "at": NOW, "work": (30, 60, 90), "rank": "needed", "lowered_because": "for its order"}
    weld = jobs.add(wren, title="Weld the patch in", kinds=["hot_work"], **more)
    begin(weld, cast.owner)
    drain = jobs.add(wren, title="Drain the tank", kinds=["fuel_drained"], **more)
    told = words(owner.press(f"/jobs/{drain.pk}/start/", follow=True).content.decode())
    assert "“Weld the patch in” on Wren is in hand: no sparks near open fuel." in told
    weld.refresh_from_db()
    assert weld.state == "in_hand"
    steps.stop(weld, by=cast.owner, at=NOW)
    assert refused(weld, cast.owner) == "“Drain the tank” has to be done first: it is open."
    owner.press(f"/jobs/{drain.pk}/start/")
    assert refused(weld, cast.owner) == "“Drain the tank” has to be done first: it is in hand."


def test_today_offers_other_work_and_the_pages_say_why(cast, wren, warm, wheels, owner):
    begin(warm, cast.helper)
    evenings(cast.owner)
    Job.objects.filter(pk=wheels.pk).update(rank="safety")
    job(VehicleFactory(garage=cast.garage, name="Heron"), cast, "Swap a hose", rank="wanted")

    def mine():
        return next(person for person in owner.get("/").context["view"].people if person.is_me).next.card

    assert (mine().title, bool(mine().steps)) == ("Swap a hose", True)
    Job.objects.filter(title="Swap a hose").update(state="dropped")
    assert (mine().title, mine().steps, mine().note) == ("Wheels off", (), RUNS)
    for path in ("/", f"/jobs/{wheels.pk}/", f"/cars/{wren.pk}/"):
        page = owner.get(path).content.decode()
        assert RUNS in words(page), path
        assert f"/jobs/{wheels.pk}/start/" not in page
    answer = owner.press(f"/jobs/{wheels.pk}/start/", follow=True)
    assert RUNS in words(answer.content.decode())


def test_today_goes_by_the_plan_and_offers_what_can_be_begun(cast, wren, warm, wheels, owner):
    evenings(cast.owner)
    evenings(cast.helper)
    begin(warm, cast.helper)
    planned(cast.garage)
    view = owner.get("/").context["view"]
    mine = next(person for person in view.people if person.is_me)
    assert (mine.next.card.title, mine.next.card.steps, mine.next.card.note) == ("Wheels off", (), RUNS)


@pytest.mark.parametrize(
    ("title", "kinds"), [("Petrol drips from the tank union", []), ("Owed: Fuel pump", ["part_pulled", "fuel_line"])]
)
def test_fuel_that_is_open_before_anybody_begins_keeps_sparks_from_the_shop(cast, wren, weld, owner, title, kinds):
    """What is found leaking, and what a part was taken from, until it is done."""
    badger = VehicleFactory(garage=cast.garage, name="Badger")
    drip = job(badger, cast, title, systems=["fuel"], kinds=kinds)
    said = f"“{title}” on Badger is not done: no sparks near open fuel."
    assert refused(weld, cast.owner) == said
    for path in (f"/jobs/{weld.pk}/", f"/cars/{wren.pk}/"):
        assert said in words(owner.get(path).content.decode()), path
    begin(drip, cast.helper)
    assert refused(weld, cast.owner) == f"“{title}” on Badger is in hand: no sparks near open fuel."
    steps.stop(Job.objects.get(pk=drip.pk), by=cast.helper, at=NOW)
    assert refused(weld, cast.owner) == f"“{title}” on Badger is begun and not done: no sparks near open fuel."
    Job.objects.filter(pk=drip.pk).update(state="held", finished_at=NOW)
    begin(weld, cast.owner)


def test_work_on_the_fuel_that_nobody_began_keeps_no_sparks_away(cast, wren, weld):
    badger = VehicleFactory(garage=cast.garage, name="Badger")
    job(badger, cast, "Renew the fuel hoses", systems=["fuel"], kinds=["fuel_line"])
    job(badger, cast, "Oil drips", systems=["engine"], kinds=["engine_work"])
    begin(weld, cast.owner)


def test_a_spark_that_was_put_down_keeps_nobody_from_the_fuel(cast, wren):
    row = job(wren, cast, "New line and its tab", kinds=["fuel_line", "part_weld"])
    begin(row, cast.owner)
    steps.stop(Job.objects.get(pk=row.pk), by=cast.owner, at=NOW)
    begin(job(wren, cast, "Swap the filter", kinds=["fuel_line"]), cast.helper)
