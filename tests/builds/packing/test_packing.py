"""Pack lists: what the cars' jobs and the shelf suggest, ticks, own lines, making it again."""

import uuid
from datetime import timedelta

import pytest

from builds.packing import actions as packing
from builds.packing.models import PackItem, PackLog
from builds.packing.pages.pack_list import pack_view
from builds.recipes.actions import putting as recipes
from builds.recipes.engine.parse import load_shipped
from builds.shelf.actions import shelf
from builds.work.models.job import Job
from garage.actions.refused import Refused
from parts.actions import stock
from parts.actions.places import house_place
from tests.builds.scrutineering.check_kit import entered, worked
from tests.conftest import queries
from tests.factories import NOW, EntryFactory, EventFactory, NeedFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.django_db


def on_shelf(cast, name, quantity=2, **fields):
    part = PartFactory(garage=cast.garage, name=name, **fields)
    place = PlaceFactory(garage=cast.garage)
    supplier = house_place(cast.garage, "supplier")
    stock.move(part, "receive", quantity, supplier, place, by=cast.owner, at=NOW)
    return part


def make(event, cast):
    return packing.make(event, by=cast.owner, at=NOW)


def take(item, step, by, minutes=0, **more):
    more.setdefault("key", uuid.uuid4())
    return packing.take(item, step, by=by, at=NOW + timedelta(minutes=minutes), **more)


def test_spares_come_from_jobs_history_and_what_was_touched(cast):
    entry = entered(cast)
    touched = on_shelf(cast, "brake pads", systems=["brakes"])
    needed = on_shelf(cast, "alternator", systems=["electrics"])
    fitted = on_shelf(cast, "front hub", systems=["wheels"])
    on_shelf(cast, "radiator", systems=["cooling"])
    on_shelf(cast, "bent brake disc", systems=["brakes"], condition="scrap")
    worked(entry.vehicle, "Bleed it", ["brakes"], NOW - timedelta(days=1))
    NeedFactory(job__vehicle=entry.vehicle, part=needed)
    shelf.carry_out(
        fitted, "fit", quantity=1, by=cast.owner, at=NOW, car=entry.vehicle,
        source=fitted.balances.get(quantity__gt=0, outside=False).place,
    )  # fmt: skip
    make(entry.event, cast)
    rows = {row.part: row.why for row in PackItem.objects.exclude(part=None)}
    assert rows == {
        touched: "Touched since the last event: brakes.",
        needed: "A job still needs it.",
        fitted: "The like of it was fitted before.",
    }


def test_tools_come_from_the_recipes_on_the_car(cast):
    entry = entered(cast)
    (recipe,) = [each for each in load_shipped() if each.key == "brake-overhaul"]
    recipes.put(recipe, entry.vehicle, by=cast.owner, at=NOW)
    make(entry.event, cast)
    tool = PackItem.objects.get(section="tools", what="bleed bottle")
    assert tool.why == "For “Bleed the brakes and check for leaks”"
    Job.objects.update(state="dropped")
    make(entry.event, cast)
    assert not PackItem.objects.filter(what="bleed bottle").exists()


def test_making_it_again_keeps_ticks_and_own_lines_and_follows_the_runs(cast):
    entry = entered(cast)
    packlist = make(entry.event, cast)
    fuel = PackItem.objects.get(what__startswith="fuel")
    assert fuel.amount == "25 l"
    take(fuel, "pack", cast.helper)
    own = packing.add(packlist, what="Folding chairs", amount="3 pieces")
    left = PackItem.objects.get(what="lamp")
    take(left, "leave", cast.helper)
    entry.event.runs = 9
    entry.event.save()
    make(entry.event, cast)
    fuel.refresh_from_db()
    left.refresh_from_db()
    assert (fuel.state, fuel.by, fuel.amount) == ("packed", cast.helper, "40 l")
    assert left.state == "left" and PackItem.objects.filter(pk=own.pk).exists()
    count = PackItem.objects.count()
    make(entry.event, cast)
    assert PackItem.objects.count() == count


def test_a_car_that_is_taken_out_takes_its_lines_along_but_not_what_is_packed(cast):
    entry = entered(cast)
    make(entry.event, cast)
    take(PackItem.objects.get(what="Helmet in its bag"), "pack", cast.helper)
    event = entry.event
    entry.delete()
    make(event, cast)
    assert [row.what for row in PackItem.objects.exclude(vehicle=None)] == ["Helmet in its bag"]


def test_a_tap_counts_once_and_the_last_hand_decides_whatever_arrives_first(cast):
    make(entered(cast).event, cast)
    item, key = PackItem.objects.get(what="lamp"), uuid.uuid4()
    heard = NOW + timedelta(hours=2)
    take(item, "pack", cast.owner, 30)
    late = take(item, "unpack", cast.helper, 10, arrived=heard, key=key)
    assert late.item.state == "packed" and not late.counts
    assert take(item, "unpack", cast.helper, 10, arrived=heard, key=key).again
    assert PackLog.objects.count() == 2
    with pytest.raises(Refused, match="used already"):
        take(item, "leave", cast.helper, key=key)


def test_a_step_from_where_there_is_none_is_refused(cast):
    make(entered(cast).event, cast)
    item = PackItem.objects.get(what="lamp")
    with pytest.raises(Refused) as found:
        take(item, "unpack", cast.helper)
    assert str(found.value) == "To unpack it, it must be packed; it is not packed."


def test_only_own_lines_are_removed(cast):
    packlist = make(entered(cast).event, cast)
    with pytest.raises(Refused, match="say that it stays here"):
        packing.remove(PackItem.objects.get(what="lamp"))
    packing.remove(packing.add(packlist, what="Folding chairs"))
    assert not PackItem.objects.filter(what="Folding chairs").exists()


def test_the_rows_for_paper_say_where_a_part_lies(cast):
    entry = entered(cast)
    part = on_shelf(cast, "brake pads", systems=["brakes"])
    worked(entry.vehicle, "Bleed it", ["brakes"], NOW - timedelta(days=1))
    make(entry.event, cast)
    view = pack_view(entry.event)
    rows = {row.what: row for section in view.sections for row in section.rows}
    assert rows["brake pads"].where == part.balances.get(outside=False).place.name
    assert rows["brake pads"].car == "Moth" and not rows["brake pads"].packed
    assert (view.done, view.of) == (0, len(rows))


def test_its_pages(helper, cast, now):
    event = entered(cast).event
    path = f"/events/{event.pk}/pack/"
    assert "No pack list yet" in helper.get(path).content.decode()
    assert helper.get(f"{path}add/").status_code == 404
    helper.press(f"{path}make/")
    helper.press(f"{path}add/", {"what": "<b>Chairs</b>", "amount": "3"})
    page = helper.get(path).content.decode()
    assert "&lt;b&gt;Chairs&lt;/b&gt;: 3" in page and "0 of " in page
    item = PackItem.objects.get(what="lamp")
    helper.press(f"/pack/{item.pk}/tick/", {"step": "pack"})
    item.refresh_from_db()
    assert (item.state, item.by) == ("packed", cast.helper)
    assert "1 of " in helper.get(path).content.decode()
    helper.press(f"/pack/{item.pk}/tick/", {"step": "fly"})
    own = PackItem.objects.get(key="")
    assert helper.press(f"/pack/{own.pk}/remove/")["Location"] == path
    answer = helper.press(f"/pack/{item.pk}/remove/", follow=True)
    assert "say that it stays here" in answer.content.decode()


def test_who_may_pack(cast, viewer, stranger, now):
    event = entered(cast).event
    packlist = make(event, cast)
    item = packlist.items.first()
    for path in (
        f"/events/{event.pk}/pack/make/",
        f"/events/{event.pk}/pack/add/",
        f"/pack/{item.pk}/tick/",
        f"/pack/{item.pk}/remove/",
    ):
        assert viewer.press(path, {"step": "pack"}).status_code == 403
        assert stranger.press(path, {"step": "pack"}).status_code == 404
    page = viewer.get(f"/events/{event.pk}/pack/").content.decode()
    assert "Helmet" in page and "/tick/" not in page


@pytest.mark.parametrize("what", ["", "x" * 121, "a\x00b", "x" * 5000])
def test_a_line_that_is_none_is_refused_and_kept(helper, cast, now, what):
    event = entered(cast).event
    make(event, cast)
    foreign = VehicleFactory(name="Foreign")
    path = f"/events/{event.pk}/pack/add/"
    answer = helper.press(path, {"what": what})
    assert answer.status_code == 422 and answer.context["form"]["what"].value() == what
    answer = helper.press(path, {"what": "Chairs", "vehicle": foreign.pk})
    assert answer.status_code == 422 and "Foreign" not in answer.content.decode()


def test_as_many_queries_for_three_cars_and_their_spares_as_for_one(owner, cast, now):
    event = entered(cast).event

    def more(name):
        car = VehicleFactory(garage=cast.garage, name=name)
        EntryFactory(event=event, vehicle=car)
        on_shelf(cast, f"pads of {name}", systems=["brakes"])
        worked(car, "Bleed it", ["brakes"], NOW - timedelta(days=1))

    more("Heron")
    make(event, cast)
    one = queries(owner, f"/events/{event.pk}/pack/")
    for name in ("Badger", "Tug"):
        more(name)
    make(event, cast)
    assert queries(owner, f"/events/{event.pk}/pack/") == one


def test_tools_of_work_at_the_paint_corner_stay_in_the_shop(cast):
    entry = entered(cast)
    (recipe,) = [each for each in load_shipped() if each.key == "panel-repair-paint"]
    recipes.put(recipe, entry.vehicle, by=cast.owner, at=NOW)
    make(entry.event, cast)
    tools = set(PackItem.objects.filter(section="tools").values_list("what", flat=True))
    assert "trim tool" in tools and "spray gun" not in tools


def test_a_list_takes_its_most_lines_and_not_one_more(cast, monkeypatch):
    packlist = packing.make(EventFactory(garage=cast.garage), by=cast.owner, at=NOW)
    monkeypatch.setattr(packing, "MOST", packlist.items.count() + 1)
    packing.add(packlist, what="Tarpaulin")
    with pytest.raises(Refused, match="lines are the most"):
        packing.add(packlist, what="Kettle")
