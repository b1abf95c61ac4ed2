"""What goes on a car fits what the job wants, is refused, or has a written reason that is kept."""

import pytest

from builds.work.models.job import Job
from builds.work.models.need import Need
from parts.models import Move
from tests.builds.verdict.fit_kit import FINE, INCH, make_bench
from tests.conftest import queries
from tests.factories import NOW, NeedFactory
from tests.parts.factories import PartFactory

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def bench(cast):
    return make_bench(cast)


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
        "Nut is not known to fit “Refit the arm”: write down why it may be fitted. Its thread is not written down."
    ]
    assert not Move.objects.filter(verb="fit").exists()
    done = bench.fit(helper, part, bench.safety, fit_because="run on a gauge", why="left side")
    assert done.status_code == 303
    assert Move.objects.get(verb="fit").why == "left side; run on a gauge"


def test_what_does_not_fit_never_goes_on_where_lives_hang_on_it(owner, bench):
    part = bench.nut(INCH, bench.safety)
    said = errors(bench.fit(owner, part, bench.safety, fit_because="it goes on by hand"))
    assert said["job"] == [
        "Nut does not fit, and lives hang on it: it is not for “Refit the arm”. "
        "M12×1.25 in 1/2-20 UNF spins on with only 49 % of the thread overlapping: it feels right "
        "by hand and strips under load."
    ]
    assert not Move.objects.filter(verb="fit").exists()


def test_leaving_the_job_out_does_not_get_round_it(owner, bench):
    part = bench.nut(INCH, bench.safety)
    refused = bench.fit(owner, part, fit_because="never mind")
    assert "lives hang on it" in str(errors(refused))


def test_nor_does_another_job_or_having_got_it_already(owner, bench):
    part = bench.nut(INCH, bench.safety)
    Need.objects.update(got_at=NOW)
    for job in (None, bench.plain):
        refused = bench.fit(owner, part, job, fit_because="never mind")
        assert "lives hang on it" in str(errors(refused))


@pytest.mark.parametrize("said", [{"systems": ["brakes"]}, {"name": "Wheel nut"}])
def test_the_part_or_the_job_may_be_what_lives_hang_on(owner, bench, said):
    part = bench.nut(INCH, bench.plain, **said)
    assert "lives hang on it" in str(errors(bench.fit(owner, part, bench.plain, fit_because="x")))


def test_a_job_that_was_for_safety_once_is_so_for_its_parts(owner, bench):
    Job.objects.filter(pk=bench.plain.pk).update(was_safety=True, lowered_because="Only its paint.")
    part = bench.nut(INCH, bench.plain)
    assert "lives hang on it" in str(errors(bench.fit(owner, part, bench.plain, fit_because="with a new bolt")))


def test_elsewhere_what_does_not_fit_wants_a_reason(owner, bench):
    part = bench.nut(INCH, bench.plain)
    assert errors(bench.fit(owner, part, bench.plain))["fit_because"][0].startswith(
        "Nut does not fit “Fit the shelf”: write down why it may be fitted. M12×1.25 in 1/2-20 UNF"
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
    assert 'name="fit_because"' not in owner.get(f"/parts/{bench.nut().pk}/move/fit/").content.decode()


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
