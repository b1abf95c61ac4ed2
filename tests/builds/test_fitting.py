"""What goes on a car fits what the job wants, is refused, or has a written reason that is kept."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.loaders.verdict import reason_url, verdict_of
from builds.loaders.verdict_parts import parts_facts
from builds.models import Need
from parts.actions import stock
from parts.actions.places import house_place
from parts.models import Move
from tests.conftest import queries
from tests.factories import NOW, JobFactory, NeedFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")
FINE = [{"kind": "thread", "thread": "M12×1.25", "side": "internal"}]
INCH = [{"kind": "thread", "thread": "1/2-20 UNF", "side": "internal"}]


@pytest.fixture
def bench(cast):
    class Bench:
        car = VehicleFactory(garage=cast.garage, name="Heron")
        safety = JobFactory(vehicle=car, title="Refit the arm", rank="safety", systems=["steering"])
        plain = JobFactory(vehicle=car, title="Fit the shelf", rank="wanted", systems=["body"])
        shelf = PlaceFactory(garage=cast.garage, name="Shelf A")

        @staticmethod
        def nut(interfaces=(), job=None, **more):
            """A nut on the shelf, wanted for the job with the fine thread."""
            part = PartFactory(garage=cast.garage, name="Nut", interfaces=list(interfaces), **more)
            stock.move(part, "receive", 4, house_place(cast.garage, "supplier"), Bench.shelf,
                       by=cast.owner, at=NOW)  # fmt: skip
            if job:
                NeedFactory(job=job, what="nut", part=part, fit=FINE)
            return part

        @staticmethod
        def fit(client, part, job="", **more):
            pk = job.pk if job else ""
            return client.press(f"/parts/{part.pk}/move/fit/", {
                "quantity": 1, "source": Bench.shelf.pk, "car": Bench.car.pk, "job": pk, **more,
            })  # fmt: skip

    return Bench


def errors(answer):
    assert answer.status_code == 422
    return dict(answer.context["form"].errors)


def test_what_fits_goes_on_without_a_word(helper, bench):
    part = bench.nut(FINE, bench.safety)
    assert bench.fit(helper, part, bench.safety).status_code == 303
    assert Move.objects.get(verb="fit").why == ""


def test_not_known_goes_on_with_a_reason_that_the_move_keeps(helper, bench):
    part = bench.nut((), bench.safety)
    said = errors(bench.fit(helper, part, bench.safety))
    assert said["fit_because"] == [
        "Nut is not known to fit Refit the arm: write down why it may be fitted. "
        "Its thread is not written down."
    ]
    assert not Move.objects.filter(verb="fit").exists()
    done = bench.fit(helper, part, bench.safety, fit_because="run on a gauge", why="left side")
    assert done.status_code == 303
    assert Move.objects.get(verb="fit").why == "left side; run on a gauge"


def test_what_does_not_fit_never_goes_on_where_lives_hang_on_it(owner, bench):
    part = bench.nut(INCH, bench.safety)
    said = errors(bench.fit(owner, part, bench.safety, fit_because="it goes on by hand"))
    assert said["job"] == [
        "Nut does not fit, and lives hang on it: it is not for Refit the arm. "
        "M12×1.25 in 1/2-20 UNF spins on with only 49 % of the thread overlapping: it feels right "
        "by hand and strips under load."
    ]
    assert not Move.objects.filter(verb="fit").exists()


def test_leaving_the_job_out_does_not_get_round_it(owner, bench):
    part = bench.nut(INCH, bench.safety)
    refused = bench.fit(owner, part, fit_because="never mind")
    assert "lives hang on it" in str(errors(refused))


def test_the_part_or_the_job_may_be_what_lives_hang_on(owner, bench):
    part = bench.nut(INCH, bench.plain, systems=["brakes"])
    assert "lives hang on it" in str(errors(bench.fit(owner, part, bench.plain, fit_because="x")))


def test_elsewhere_what_does_not_fit_wants_a_reason(owner, bench):
    part = bench.nut(INCH, bench.plain)
    assert errors(bench.fit(owner, part, bench.plain))["fit_because"][0].startswith(
        "Nut does not fit Fit the shelf: write down why it may be fitted. M12×1.25 in 1/2-20 UNF"
    )
    assert bench.fit(owner, part, bench.plain, fit_because="with a new bolt").status_code == 303
    assert Move.objects.get(verb="fit").why == "with a new bolt"


def test_unknown_history_and_unknown_fit_want_both_reasons(owner, bench):
    part = bench.nut((), bench.plain, condition="unknown")
    first = errors(bench.fit(owner, part, bench.plain, fit_because="tried on"))
    assert list(first) == ["unknown_because"]
    more = {"unknown_because": "crack tested", "fit_because": "tried on"}
    assert bench.fit(owner, part, bench.plain, **more).status_code == 303
    assert Move.objects.get(verb="fit").why == "crack tested; tried on"


def test_reasons_are_never_cut_short(owner, bench):
    part = bench.nut((), bench.plain)
    said = errors(bench.fit(owner, part, bench.plain, why="x" * 150, fit_because="y" * 60))
    assert said["why"] == ["Note and reasons come to 212 characters: 200 is the most."]


def test_what_nobody_asked_to_fit_goes_on_as_before(owner, bench):
    part = bench.nut(INCH)
    NeedFactory(job=bench.safety, part=part)
    assert bench.fit(owner, part, bench.safety).status_code == 303


def test_the_page_says_beforehand_how_it_fits(owner, bench):
    part = bench.nut(INCH, bench.safety)
    body = owner.get(f"/parts/{part.pk}/move/fit/").content.decode()
    assert "Does not fit" in body and "spins on with only 49 %" in body
    assert 'name="fit_because"' in body
    assert (
        'name="fit_because"' not in owner.get(f"/parts/{bench.nut().pk}/move/fit/").content.decode()
    )


def test_it_is_not_even_pulled_for_a_safety_job(owner, bench):
    part = bench.nut(INCH, bench.safety)
    data = {"quantity": 1, "source": bench.shelf.pk, "job": bench.safety.pk}
    said = errors(owner.press(f"/parts/{part.pk}/move/pull/", data))
    assert "lives hang on it" in said["job"][0]
    unknown = bench.nut((), bench.safety)
    answer = owner.press(f"/parts/{unknown.pk}/move/pull/", data)
    assert answer.status_code == 303


def needed(client, job, **more):
    return client.press(f"/jobs/{job.pk}/needs/add/", {"what": "nyloc nut", "quantity": 1, **more})


def test_a_want_keeps_what_it_must_fit_and_shows_it_as_typed(helper, bench):
    assert needed(helper, bench.safety, fit="m12 x 1,25 nut").status_code == 303
    need = Need.objects.get()
    assert need.fit == FINE
    page = helper.get(f"/needs/{need.pk}/")
    assert 'value="M12×1.25 nut"' in page.content.decode()
    assert "must fit: M12×1.25 nut" in helper.get(f"/jobs/{bench.safety.pk}/").content.decode()
    data = {"what": "nyloc nut", "quantity": 1, "fit": "5×112 bore 66.6 cone seat"}
    assert helper.press(f"/needs/{need.pk}/", data).status_code == 303
    need.refresh_from_db()
    assert need.fit == [{"kind": "wheel", "pattern": "5×112", "bore": "66.6", "seat": "cone60"}]
    body = helper.get(f"/needs/{need.pk}/").content.decode()
    assert 'value="wheel 5×112, bore 66.6 mm, 60° cone"' in body
    data["fit"] = "wheel 5×112, bore 66.6 mm, 60° cone"
    helper.press(f"/needs/{need.pk}/", data)
    again = Need.objects.get()
    assert again.fit == need.fit


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("nut", "No size can be read here: write one such as M12×1.25 nut or 5×112 bore 66.6."),
        ("M12×1.25 nyloc", "“nyloc” is no size: leave it out here."),
        ("M" * 200, "Ensure this value has at most 80 characters (it has 200)."),
        ("M12\0", "Null characters are not allowed."),
    ],
)
def test_what_is_no_size_is_said_and_kept(helper, bench, typed, sentence):
    answer = needed(helper, bench.safety, fit=typed)
    assert errors(answer)["fit"] == [sentence]
    assert answer.context["form"]["fit"].value() == typed
    assert not Need.objects.exists()


def test_a_part_for_a_want_is_offered_with_its_verdict_what_fits_first(owner, bench):
    fits, inch, unsaid = bench.nut(FINE), bench.nut(INCH), bench.nut()
    need = NeedFactory(job=bench.safety, what="nut", fit=FINE)
    page = owner.get(f"/needs/{need.pk}/part/")
    assert [(row.part, row.fit.state) for row in page.context["rows"]] == [
        (fits, "fits"),
        (unsaid, "not_known"),
        (inch, "does_not"),
    ]
    assert page.context["refused"] == {inch.pk}
    answer = owner.press(f"/needs/{need.pk}/part/", {"part": inch.pk})
    assert "lives hang on it" in errors(answer)["part"][0]
    assert owner.press(f"/needs/{need.pk}/part/", {"part": fits.pk}).status_code == 303


def test_found_by_what_it_must_fit_though_its_name_says_nothing(owner, cast, bench):
    PartFactory(garage=cast.garage, name="Bag 7", interfaces=FINE)
    need = NeedFactory(job=bench.plain, what="castle thing", fit=FINE)
    page = owner.get(f"/needs/{need.pk}/part/")
    assert [row.part.name for row in page.context["rows"]] == ["Bag 7"]


def test_the_same_queries_however_many_are_offered(owner, bench):
    need = NeedFactory(job=bench.safety, what="nut", fit=FINE)
    bench.nut(FINE)
    few = queries(owner, f"/needs/{need.pk}/part/")
    for _ in range(12):
        bench.nut(INCH)
    assert queries(owner, f"/needs/{need.pk}/part/") == few


def facts(cast, *cars):
    with CaptureQueriesContext(connection) as found:
        told = parts_facts(cast.garage, list(cars), NOW, {})
    return {
        car: [(fact.title, fact.what, fact.state) for fact in told[car.pk]] for car in cars
    }, len(found)


def test_every_car_has_its_parts_on_record(cast, bench):
    assert facts(cast, bench.car)[0] == {bench.car: []}


@pytest.mark.parametrize("state", ["done", "signed"])
def test_a_finished_job_whose_need_was_never_got(cast, bench, state):
    for job, rank, systems in [
        (bench.safety, "safety", ["steering"]),
        (bench.plain, "wanted", ["body"]),
    ]:
        job.state, job.rank, job.systems = state, rank, systems
        job.save()
        NeedFactory(job=job, what="split pin")
        NeedFactory(job=job, what="nut", got_at=NOW)
    assert facts(cast, bench.car)[0][bench.car] == [("Refit the arm", "split pin", "unfitted")]


@pytest.mark.parametrize("state", ["open", "in_hand", "dropped"])
def test_an_open_or_dropped_job_lacks_nothing_yet(cast, bench, state):
    bench.safety.state = state
    bench.safety.save()
    NeedFactory(job=bench.safety, what="split pin")
    assert facts(cast, bench.car)[0][bench.car] == []


def test_a_lowered_rank_does_not_hide_a_missing_pin(cast, bench):
    bench.safety.state, bench.safety.rank = "done", "wanted"
    bench.safety.save()
    NeedFactory(job=bench.safety, what="split pin")
    assert facts(cast, bench.car)[0][bench.car] == [("Refit the arm", "split pin", "unfitted")]


def test_what_went_on_and_does_not_fit_stands_until_it_is_off(owner, cast, bench):
    part = bench.nut(INCH, bench.plain)
    bench.fit(owner, part, bench.plain, fit_because="for now")
    assert facts(cast, bench.car)[0][bench.car] == [("Fit the shelf", "Nut", "misfit")]
    move = Move.objects.get(verb="fit")
    owner.press(f"/moves/{move.pk}/undo/")
    assert facts(cast, bench.car)[0][bench.car] == []


def test_the_verdict_says_both_and_leads_to_the_job(owner, cast, bench):
    part = bench.nut(INCH, bench.plain)
    bench.fit(owner, part, bench.plain, fit_because="for now")
    NeedFactory(job=bench.safety, what="split pin")
    bench.safety.state = "signed"
    bench.safety.save()
    found = {reason.sentence: reason for reason in verdict_of(bench.car, NOW).reasons}
    for job, sentence in [
        (bench.safety, "Refit the arm is done, but split pin was never fitted."),
        (bench.plain, "Fit the shelf went on with Nut, which does not fit."),
    ]:
        assert reason_url(found[sentence]) == f"/jobs/{job.pk}/"
    assert "Got it" in owner.get(f"/jobs/{bench.safety.pk}/").content.decode()


def test_taken_off_again_it_no_longer_stands(owner, cast, bench):
    part = bench.nut(INCH, bench.plain)
    bench.fit(owner, part, bench.plain, fit_because="for now")
    on_car = Move.objects.get(verb="fit").target
    stock.move(
        part, "take_off", 1, on_car, house_place(cast.garage, "scrap"), by=cast.owner, at=NOW
    )
    assert facts(cast, bench.car)[0][bench.car] == []


def test_the_same_queries_for_one_car_and_for_many(owner, cast, bench):
    part = bench.nut(INCH, bench.plain)
    bench.fit(owner, part, bench.plain, fit_because="for now")
    _, one = facts(cast, bench.car)
    others = [VehicleFactory(garage=cast.garage) for _ in range(8)]
    for car in others:
        NeedFactory(job=JobFactory(vehicle=car, state="done", rank="needed"), fit=FINE)
    told, many = facts(cast, bench.car, *others)
    assert one == many == 2
    assert all(told[car][0][2] == "unfitted" for car in others)
