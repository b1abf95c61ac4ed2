"""A part comes on another day."""

from builds.remedies.deeds.part import PartDeed
from tests.builds.plan.plan_kit import enter, evenings, job, planned
from tests.builds.remedies.remedy_kit import DAY, TOMORROW, address, apply, card, makes_it, said_on
from tests.factories import NOW, NeedFactory


def test_a_part_sooner_moves_its_date(owner, cast, car):
    evenings(cast.owner, days=[2])
    work = job(car, cast, likely_minutes=240, high_minutes=240)
    need = NeedFactory(job=work, what="front hub", expected_on=(NOW + 2 * DAY).date())
    entry = enter(car, NOW + 2 * DAY)
    planned(cast.garage)
    assert not makes_it(entry)
    said = said_on(owner, address(entry))
    assert "front hub for “Fit the fan” comes Wed 3 Mar, not Thu 4 Mar" in said
    assert "To undo: set the date of front hub back to Thu 4 Mar on its job." in said
    apply(owner, entry, card(owner, entry, "part"))
    need.refresh_from_db()
    assert need.expected_on == TOMORROW
    assert makes_it(entry)


def test_a_part_that_is_not_ordered_could_come_sooner_than_its_days(owner, cast, car):
    evenings(cast.owner, days=[2])
    NeedFactory(job=job(car, cast), what="front hub", expected_on=None, lead_days=2)
    entry = enter(car, NOW + 2 * DAY)
    planned(cast.garage)
    assert not makes_it(entry)
    assert "front hub for “Fit the fan” comes Wed 3 Mar By the plan Heron is then ready Wed 19:00" in said_on(
        owner, address(entry)
    )


def test_a_part_without_a_date_gets_one(late, do):
    need = NeedFactory(job=late.vehicle.jobs.get(), what="fan", expected_on=None)
    said = do(PartDeed(need.pk, TOMORROW))
    assert said == "fan for “Fit the fan” comes Wed 3 Mar. To undo: set the date of fan on its job."
