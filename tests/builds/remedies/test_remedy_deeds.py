"""One tap changes the garage and the plan; what no button sends is refused."""

import uuid

import pytest

from builds.cure.models.shop import HeatedHours, ShopDay
from builds.plan.models import Plan
from builds.remedies.actions import remedies
from builds.remedies.facts.deeds import Deed, parse, parse_all
from builds.work.models.states import State
from garage.actions.refused import Refused
from garage.models import DayHours, Entry, Membership, Station
from tests.builds.plan.plan_kit import enter, evenings, job, planned, text
from tests.builds.remedies.remedy_kit import (
    DAY,
    TODAY,
    TOMORROW,
    address,
    apply,
    card,
    late_entry,
    lonely_car,
    makes_it,
    said_on,
)
from tests.factories import (
    NOW,
    JobStationFactory,
    LinkFactory,
    NeedFactory,
    SkillFactory,
    StationFactory,
    VehicleFactory,
)

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]


@pytest.fixture
def car(cast):
    return lonely_car(cast)


@pytest.fixture
def late(cast, car):
    return late_entry(cast, car)


class TestDoingIt:
    def test_a_session_is_in_the_garage_and_the_car_is_on_time(self, owner, cast, late):
        code = card(owner, late, "session")
        answer = apply(owner, late, code)
        body = answer.content.decode()
        assert "Heron will make Saltmarsh Hill Climb: ready Wed" in body
        row = DayHours.objects.get()
        assert (row.member, row.day, row.kind) == (cast.owner, TOMORROW, "extra")
        assert "To undo: take that day out on the page of Ines." in body
        assert makes_it(late)
        assert Plan.objects.count() == 2

    def test_a_double_tap_does_it_once(self, owner, late):
        data = {"do": card(owner, late, "session"), "key": str(uuid.uuid4())}
        for _ in range(2):
            assert owner.post(address(late, "apply/"), data).status_code == 303
        assert DayHours.objects.count() == 1
        assert Plan.objects.count() == 2

    def test_done_twice_by_two_people_it_is_refused(self, owner, cast, late):
        code = card(owner, late, "session")
        apply(owner, late, code)
        said = apply(owner, late, code).content.decode()
        assert "overlap." in said
        assert DayHours.objects.count() == 1

    def test_somebody_new_gets_a_place_holder_without_an_account(self, owner, cast, car):
        for title in ("Fit the fan", "Fit the shroud"):
            job(car, cast, title, likely_minutes=180, high_minutes=180)
        entry = enter(car, NOW + 2 * DAY)
        planned(cast.garage)
        apply(owner, entry, card(owner, entry, "hands"))
        new = Membership.objects.get(person__name="Extra hands")
        assert (new.role, new.works, new.person.email) == ("helper", True, None)
        assert makes_it(entry)

    def test_the_same_place_holder_comes_again_unless_he_is_in(self, cast, late):
        for hours, heads in [((600, 720), 1), ((720, 780), 1), ((660, 750), 2)]:
            deed = Deed("hands", (0, *hours), TOMORROW)
            remedies.apply((deed,), by=cast.owner, at=NOW)
            assert Membership.objects.filter(person__name="Extra hands").count() == heads

    def test_somebody_new_has_the_skill(self, cast, late):
        weld = SkillFactory(garage=cast.garage, slug="weld")
        deed = Deed("hands", (weld.pk, 1080, 1320), TOMORROW)
        said = remedies.apply((deed,), by=cast.owner, at=NOW)
        assert said.startswith("Somebody new who can weld comes Wed 3 Mar 18:00–22:00.")
        assert weld in Membership.objects.get(person__name="Extra hands").skills.all()

    def test_a_part_sooner_moves_its_date(self, owner, cast, car):
        evenings(cast.owner, days=[2])
        work = job(car, cast, likely_minutes=240, high_minutes=240)
        need = NeedFactory(job=work, what="front hub", expected_on=(NOW + 2 * DAY).date())
        entry = enter(car, NOW + 2 * DAY)
        planned(cast.garage)
        assert not makes_it(entry)
        assert "front hub for Fit the fan comes Wed 3 Mar, not Thu 4 Mar" in said_on(owner, address(entry))
        apply(owner, entry, card(owner, entry, "part"))
        need.refresh_from_db()
        assert need.expected_on == TOMORROW
        assert makes_it(entry)

    @pytest.fixture
    def one_bay(self, cast, car):
        """Two cars, two people, one evening, and one bay that both cars need for all of it."""
        evenings(cast.helper, days=[1])
        cast.helper.works = True
        cast.helper.save()
        bay = StationFactory(garage=cast.garage, name="Bay")
        entries = []
        for each in (car, VehicleFactory(garage=cast.garage, name="Badger")):
            work = job(each, cast, f"Fit {each}", likely_minutes=240, high_minutes=240)
            JobStationFactory(job=work, station=bay)
            entries.append(enter(each, NOW + 2 * DAY))
        planned(cast.garage)
        return sorted(entries, key=makes_it)

    def test_room_for_one_more(self, owner, one_bay):
        late, other = one_bay
        assert "Bay has room for 2 at once, not 1" in said_on(owner, address(late, "?whole"))
        apply(owner, late, card(owner, late, "room"))
        assert Station.objects.get().capacity == 2
        assert makes_it(late) and makes_it(other)

    def test_a_better_order_says_whom_it_costs(self, owner, one_bay):
        late, other = one_bay
        late.weight = 5
        late.save()
        said = said_on(owner, address(late, "?whole"))
        assert "The same work in a better order" in said
        assert f"{other.vehicle} then misses Saltmarsh Hill Climb." in said
        apply(owner, late, "again")
        assert (makes_it(late), makes_it(other)) == (True, False)

    def test_the_other_car_at_home(self, owner, cast, car):
        other = VehicleFactory(garage=cast.garage, name="Badger")
        entries = []
        for each in (car, other):
            job(each, cast, f"Fit {each}", likely_minutes=200, high_minutes=240)
            entries.append(enter(each, NOW + 2 * DAY))
        planned(cast.garage)
        entry, goes = sorted(entries, key=makes_it)
        said = f"{goes.vehicle} does not go to Saltmarsh Hill Climb"
        assert said in said_on(owner, address(entry, "?whole"))
        apply(owner, entry, card(owner, entry, "home"))
        assert makes_it(entry)
        assert Entry.objects.get() == entry

    def test_wanted_work_waits_with_a_note_until_the_car_has_left(self, cast, late):
        own = job(late.vehicle, cast, "Polish", rank="wanted", note="The left side.")
        other = job(VehicleFactory(garage=cast.garage), cast, "Wax", rank="wanted")
        deed = Deed("defer", (late.pk, own.pk, other.pk))
        said = remedies.apply((deed,), by=cast.owner, at=NOW)
        assert said.startswith("Polish and Wax wait until Heron has left.")
        own.refresh_from_db()
        other.refresh_from_db()
        assert (own.earliest_at, other.earliest_at) == (late.event.ends_at, late.event.due_at)
        assert own.note == "The left side.\nPut off so that Heron makes Saltmarsh Hill Climb."

    @pytest.mark.parametrize("more", [{"rank": "safety"}, {"rank": "needed"}])
    def test_what_must_be_done_is_never_put_off(self, cast, late, more):
        brakes = job(late.vehicle, cast, "Brakes", **more)
        with pytest.raises(Refused, match="it is not put off"):
            remedies.apply((Deed("defer", (late.pk, brakes.pk)),), by=cast.owner, at=NOW)
        brakes.refresh_from_db()
        assert brakes.earliest_at is None

    def test_work_in_hand_is_not_put_off(self, cast, late):
        polish = job(late.vehicle, cast, "Polish", rank="wanted", state=State.IN_HAND)
        with pytest.raises(Refused, match="in hand or pinned"):
            remedies.apply((Deed("defer", (late.pk, polish.pk)),), by=cast.owner, at=NOW)

    def test_a_heater_shortens_a_cure(self, owner, cast, car):
        """Primer put on Tuesday; cold as it is, it is not ready for Wednesday evening."""
        evenings(cast.owner, days=[2])
        ShopDay.objects.create(garage=cast.garage, day=TODAY, low_mc=11_000, high_mc=11_000)
        prime = job(car, cast, "Prime", likely_minutes=60)
        refit = job(car, cast, "Refit", rank="safety", likely_minutes=120)
        LinkFactory(before=prime, after=refit, cure="epoxy-primer", cure_stage="handle", why="cures")
        entry = enter(car, NOW + 2 * DAY)
        planned(cast.garage)
        if makes_it(entry):
            pytest.fail("the cure is too short for this test")
        body = text(owner, address(entry))
        assert "The shop is heated to 20 °C Tue 2 Mar 19:00" in body
        assert "A heater wants fresh air" in body
        apply(owner, entry, card(owner, entry, "heat"))
        assert HeatedHours.objects.filter(day=TODAY).exists()
        assert makes_it(entry)

    def test_all_of_it_or_nothing(self, cast, late):
        good = Deed("session", (cast.owner.pk, 1080, 1320), TOMORROW)
        bad = Deed("session", (cast.owner.pk, 1200, 1400), TOMORROW)
        with pytest.raises(Refused, match="overlap"):
            remedies.apply((good, bad), by=cast.owner, at=NOW)
        assert not DayHours.objects.exists()
        assert Plan.objects.count() == 1


class TestBadInput:
    @pytest.mark.parametrize(
        "code",
        [
            "",
            "drop.1",
            "session.1",
            "session.a.b.c.2027-03-03",
            "session.1.2.3.2027-02-30",
            "home.9999999999999",
            "defer.1",
            "x" * 500,
            "room.1 " * 30,
            "heat.1.2.3",
            "home.1.2",
        ],
    )
    def test_what_no_button_sends_is_refused_in_a_sentence(self, owner, late, code):
        answer = apply(owner, late, code)
        assert "This cannot be done any more: look again." in answer.content.decode()
        assert Plan.objects.count() == 1

    @pytest.mark.parametrize(
        ("deed", "sentence"),
        [
            (Deed("session", (0, 900, 800), TOMORROW), "begins before it ends"),
            (Deed("session", (0, 0, 1500), TOMORROW), "begins before it ends"),
            (Deed("heat", (0, 60, 99_000), TOMORROW), "no temperature"),
            (Deed("weigh", (1, 12)), "between 1 and 9"),
        ],
    )
    def test_figures_out_of_bounds(self, cast, late, deed, sentence):
        first = {"session": cast.owner.pk, "weigh": late.pk}.get(deed.kind)
        numbers = (first, *deed.numbers[1:]) if first else deed.numbers
        with pytest.raises(Refused, match=sentence):
            remedies.apply((Deed(deed.kind, numbers, deed.day),), by=cast.owner, at=NOW)

    @pytest.mark.parametrize("code", ["again", "session.3.1080.1320.2027-03-03", "defer.1.2.3", "hold.-500.2027-03-02"])
    def test_codes_are_read_as_written(self, code):
        assert parse(code).code == code
        assert parse_all(f"{code} {code}") == (parse(code), parse(code))
