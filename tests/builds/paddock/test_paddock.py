"""The event's day: every line on one page, writes that come late, each once and none in silence."""

import json
import uuid
from datetime import timedelta

import pytest

from builds.packing import actions as packing
from builds.packing.models import PackItem
from builds.paddock import actions as paddock
from builds.paddock.engine import Write
from builds.paddock.pages.paddock import item_view
from builds.readings.models.reading import Reading
from builds.scrutineering.actions import check_lists, checks
from builds.scrutineering.models.check import CheckItem
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.builds.paddock.paddock_kit import JSON, write
from tests.builds.readings.reading_kit import take
from tests.conftest import queries
from tests.factories import NOW, EntryFactory, EventFactory, VehicleFactory
from tests.pages import words


def test_a_car_is_told_as_everywhere_with_what_is_worst_of_it(helper, cast, entry):
    Job.objects.create(
        vehicle=entry.vehicle,
        title="Petrol drips from the tank",
        **{"rank": "safety", "systems": ["fuel"], "made_by": cast.owner, "made_at": NOW},
        **{"low_minutes": 30, "likely_minutes": 60, "high_minutes": 90},
    )
    judged = verdict_of(entry.vehicle, NOW)
    said = words(helper.get(f"/paddock/{entry.event_id}/").content.decode())
    assert judged.do_not_drive and "“Petrol drips from the tank”" in judged.reasons[0].sentence
    assert f"Do not drive {judged.sentence} {judged.reasons[0].sentence}" in said
    assert all(reason.sentence in said for reason in judged.reasons)


@pytest.fixture
def items(cast, entry):
    check_lists.make(entry, by=cast.owner, at=NOW)
    return list(CheckItem.objects.all()[:3])


def test_a_tick_with_the_phones_own_time(helper, cast, entry, items):
    earlier = NOW - timedelta(minutes=40)
    answer = write(helper, entry, f"check-{items[0].pk}", "ticked", at=earlier).json()
    items[0].refresh_from_db()
    assert (items[0].state, items[0].by, items[0].at) == ("ticked", cast.helper, earlier)
    assert (answer["state"], answer["version"], answer["told"]) == ("ticked", 1, "")


def test_the_same_key_counts_once_and_is_told_how_the_line_stands(helper, entry, items):
    key, name = uuid.uuid4(), f"check-{items[0].pk}"
    write(helper, entry, name, "ticked", key=key)
    again = write(helper, entry, name, "ticked", key=key)
    assert again.status_code == 303
    found = helper.get(again["Location"], headers=JSON).json()
    assert (found["state"], found["version"]) == ("ticked", 1)
    assert items[0].log.count() == 1


def test_a_tick_that_meets_a_fail_is_a_clash_and_changes_nothing(helper, owner, cast, entry, items):
    name = f"check-{items[0].pk}"
    write(owner, entry, name, "failed", note="Nut loose")
    answer = write(helper, entry, name, "ticked").json()
    assert answer["clash"] and answer["told"].startswith("Ines failed it")
    items[0].refresh_from_db()
    assert items[0].state == "failed"


def test_a_fail_that_meets_a_tick_stands_and_says_so(helper, owner, entry, items):
    name = f"check-{items[0].pk}"
    write(owner, entry, name, "ticked")
    answer = write(helper, entry, name, "failed", note="Pad worn out").json()
    assert not answer["clash"] and "Ines ticked it" in answer["told"]
    assert answer["state"] == "failed"
    assert Job.objects.filter(title="Pad worn out").exists()


def test_two_who_fail_one_line_are_both_on_record(helper, owner, entry, items):
    name = f"check-{items[0].pk}"
    write(owner, entry, name, "failed", note="Pad worn out")
    answer = write(helper, entry, name, "failed", note="Hose chafed").json()
    assert not answer["clash"] and answer["version"] == 2
    notes = {row.note for row in items[0].log.all()}
    assert notes == {job.title for job in Job.objects.all()} == {"Pad worn out", "Hose chafed"}


def test_two_ticks_of_one_line_are_one_tick_and_no_clash(helper, owner, entry, items):
    name = f"check-{items[0].pk}"
    write(owner, entry, name, "ticked")
    answer = write(helper, entry, name, "ticked").json()
    assert answer["told"] == "" and answer["version"] == 1


@pytest.mark.parametrize("to", ["failed", "left_out"])
def test_what_is_wrong_or_does_not_apply_wants_a_word(owner, entry, items, to):
    answer = write(owner, entry, f"check-{items[0].pk}", to).json()
    assert answer["told"].startswith("Write down")
    items[0].refresh_from_db()
    assert items[0].state == "open"


def test_a_helper_leaves_nothing_out(helper, owner, entry, items):
    name = f"check-{items[0].pk}"
    told = write(helper, entry, name, "left_out", note="no time").json()["told"]
    assert told == "Only the owner says that an item does not apply."
    items[0].refresh_from_db()
    assert items[0].state == "open"
    assert write(owner, entry, name, "left_out", note="Has none").json()["state"] == "left_out"


def test_a_tick_is_taken_back(helper, entry, items):
    name = f"check-{items[0].pk}"
    write(helper, entry, name, "ticked")
    assert write(helper, entry, name, "open", seen=1).json()["state"] == "open"


def test_things_are_packed_and_left_behind(helper, cast, entry):
    packlist = packing.make(entry.event, by=cast.owner, at=NOW)
    first, second = PackItem.objects.filter(packlist=packlist)[:2]
    before = NOW - timedelta(minutes=1)
    packed = write(helper, entry, f"pack-{first.pk}", "packed", at=before).json()
    assert packed["state"] == "packed"
    assert write(helper, entry, f"pack-{second.pk}", "left").json()["state"] == "left"
    assert write(helper, entry, f"pack-{first.pk}", "open", seen=1).json()["state"] == "open"


def test_pressures_become_a_reading_in_the_garages_units(helper, cast, entry):
    answer = write(helper, entry, f"press-{entry.pk}", "taken", value="2,1 2.1 1,95 2.0", note="hot").json()
    assert answer["told"] == ""
    reading = Reading.objects.get()
    assert [value.amount for value in reading.values.all()] == [210_000, 210_000, 195_000, 200_000]
    assert (reading.by, reading.note) == (cast.helper, "hot")


@pytest.mark.parametrize("value", ["", "2.1", "2 2 2", "2 2 2 x", "2 2 2 NaN", "2 2 2 1e9", "9 9 9 -1"])
def test_pressures_that_are_none_are_refused_with_a_sentence(helper, entry, value):
    answer = write(helper, entry, f"press-{entry.pk}", "taken", value=value)
    assert answer.status_code == 422 and answer.json()["told"]
    assert not Reading.objects.exists()


def test_a_refusal_whose_answer_was_lost_is_told_again(helper, entry):
    key, name = uuid.uuid4(), f"press-{entry.pk}"
    for _ in range(2):
        answer = write(helper, entry, name, "taken", value="2 2", key=key)
        assert "told" in answer.json() and "Write four pressures" in answer.json()["told"]


def test_something_seen_becomes_a_job_on_that_car(helper, entry):
    write(helper, entry, f"note-{entry.pk}", "said", value="Oil under the gearbox")
    job = Job.objects.get()
    assert (job.title, job.vehicle, job.rank) == ("Oil under the gearbox", entry.vehicle, "needed")
    write(helper, entry, f"note-{entry.pk}", "said", value="Track rod end has play")
    job = Job.objects.last()
    assert (job.rank, job.systems, job.kinds_likely) == ("safety", ["steering"], True)
    write(helper, entry, f"note-{entry.pk}", "said", value="Flush it all")  # of the brakes, for all it says
    job = Job.objects.get(title="Flush it all")
    assert (job.rank, job.kinds) == ("safety", ["hydraulics_opened"])


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"at": NOW + timedelta(hours=2)}, "clock of this phone runs ahead"),
        ({"at": NOW - timedelta(days=40)}, "more than a month ago"),
        ({"item": "check-999999"}, "not on the list any more"),
        ({"item": "wing-1"}, "not on the list any more"),
        ({"item": "../../x"}, "item:"),
        ({"to": "signed"}, "not on the list any more"),
        ({"seen": "-4"}, "seen:"),
        ({"note": "x" * 201}, "note:"),
    ],
)
def test_what_a_phone_cannot_mean_is_refused_in_words(helper, entry, items, more, said):
    sent = {"item": f"check-{items[0].pk}", "to": "ticked", **more}
    answer = write(helper, entry, sent.pop("item"), sent.pop("to"), **sent)
    assert answer.status_code == 422 and said in answer.json()["told"]
    items[0].refresh_from_db()
    assert items[0].state == "open"


def test_a_line_of_another_event_or_garage_is_not_reached(helper, stranger, entry, items):
    other = EntryFactory(event=EventFactory(garage=entry.event.garage), vehicle=entry.vehicle)
    assert "not on the list" in write(helper, other, f"check-{items[0].pk}", "ticked").json()["told"]
    assert write(stranger, entry, f"check-{items[0].pk}", "ticked").status_code == 404


def test_with_scripts_off_the_button_answers_the_page(helper, entry, items):
    data = {"item": f"check-{items[0].pk}", "to": "ticked", "seen": "0"}
    answer = helper.press(f"/paddock/{entry.event_id}/write/", data)
    assert (answer.status_code, answer["Location"]) == (303, f"/paddock/{entry.event_id}/#check-{items[0].pk}")
    items[0].refresh_from_db()
    assert items[0].state == "ticked"


def test_a_viewer_sees_lines_and_no_buttons(viewer, entry, items):
    page = viewer.get(f"/paddock/{entry.event_id}/").content.decode()
    assert items[0].text in page and "data-item" not in page


def test_the_page_and_the_state_tell_whose_they_are(owner, helper, entry, items):
    page, state = (
        owner.get(f"/paddock/{entry.event_id}/"),
        owner.get(f"/paddock/{entry.event_id}/now/"),
    )
    mine = page["Paddock-Member"]
    assert state.json()["member"] == mine != helper.get("/paddock/")["Paddock-Member"]
    assert {f"check-{item.pk}" for item in items} <= {row["item"] for row in state.json()["items"]}


def test_a_revoked_phone_is_answered_nothing_to_keep(helper, cast, entry):
    cast.helper.left_at = NOW
    cast.helper.save()
    answer = helper.get(f"/paddock/{entry.event_id}/")
    assert answer.status_code == 403 and "Paddock-Member" not in answer


def test_one_car_and_six_take_the_same_queries(owner, cast, entry):
    check_lists.make(entry, by=cast.owner, at=NOW)
    one = queries(owner, f"/paddock/{entry.event_id}/")
    for _ in range(5):
        more = EntryFactory(event=entry.event, vehicle=VehicleFactory(garage=cast.garage))
        check_lists.make(more, by=cast.owner, at=NOW)
    assert queries(owner, f"/paddock/{entry.event_id}/") == one


def test_the_manifest_and_the_worker_are_what_a_browser_wants(client):
    manifest = client.get("/manifest.webmanifest")
    assert manifest["Content-Type"] == "application/manifest+json"
    told = json.loads(manifest.content)
    assert told["start_url"] == "/paddock/" and {i["sizes"] for i in told["icons"]} >= {
        "192x192",
        "512x512",
    }
    worker = client.get("/paddock/worker.js")
    assert worker["Content-Type"].startswith("text/javascript")
    assert "no-cache" in worker["Cache-Control"]


def test_a_line_ticked_again_after_work_on_it(helper, cast, entry, items):
    checks.take(items[0], "tick", by=cast.owner, at=NOW, key=uuid.uuid4())
    answer = write(helper, entry, f"check-{items[0].pk}", "ticked", seen=1).json()
    assert answer["version"] == 2


def test_one_line_as_it_stands_is_told_to_a_phone_and_shown_to_a_browser(helper, entry, items):
    write(helper, entry, f"check-{items[0].pk}", "ticked")
    path = f"/paddock/{entry.event_id}/check-{items[0].pk}/"
    assert helper.get(path, headers=JSON).json()["state"] == "ticked"
    assert (
        helper.get(path, headers={"Accept": "text/html"})["Location"]
        == f"/paddock/{entry.event_id}/#check-{items[0].pk}"
    )
    assert helper.get(f"/paddock/{entry.event_id}/check-0/", headers=JSON).status_code == 404


def test_pressures_say_their_day_and_that_they_are_to_be_taken_again(cast, entry):
    car = entry.vehicle
    take(car, "tyre_pressures", cast.helper, at=NOW - timedelta(days=2), amount=190_000)

    def words():
        return item_view(entry.event, f"press-{entry.pk}", cast.owner, NOW).words

    assert words() == "1.9 1.9 1.9 1.9 bar, Tove Sun 28 Feb 17:00"
    before = EventFactory(garage=cast.garage, gates_at=NOW - timedelta(days=1), ends_at=NOW - timedelta(hours=1))
    EntryFactory(event=before, vehicle=car)
    assert words().startswith("measure again, was 1.9 1.9")


class TestWhatIsRefusedByItself:
    """Whatever the phone had let through."""

    @staticmethod
    def send(cast, entry, item, to, value):
        sent = Write(item, to, 0, NOW, value=value)
        return paddock.write(entry.event, sent, by=cast.helper, at=NOW, key=uuid.uuid4())

    @pytest.mark.parametrize(("to", "value"), [("said", ""), ("said", "   "), ("taken", "oil on the floor")])
    def test_a_note_says_something(self, cast, entry, to, value):
        with pytest.raises(Refused, match="Write down what was seen"):
            self.send(cast, entry, f"note-{entry.pk}", to, value)
        assert not Job.objects.exists()

    @pytest.mark.parametrize("beyond", ["100.01", "-0.01"])
    def test_a_pressure_is_one_of_a_tyre(self, cast, entry, beyond):
        with pytest.raises(Refused, match="is no pressure of a tyre"):
            self.send(cast, entry, f"press-{entry.pk}", "taken", f"1.9 1.9 1.8 {beyond}")
        assert not Reading.objects.exists()

    def test_pressures_with_their_unit(self, cast, entry):
        self.send(cast, entry, f"press-{entry.pk}", "taken", "26/26/24/24 psi")
        values = Reading.objects.get().values.order_by("field").values_list("field", "amount")
        assert dict(values) == {"fl": 179_264, "fr": 179_264, "rl": 165_474, "rr": 165_474}
