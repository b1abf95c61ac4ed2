"""Codes: what pages send and stored trials hold is read as it was written, and nothing else is."""

from datetime import date

import pytest

from builds.plan.models import Plan
from builds.remedies.deeds.again import AgainDeed
from builds.remedies.deeds.deed import codes
from builds.remedies.deeds.defer import DeferDeed
from builds.remedies.deeds.enter import EnterDeed
from builds.remedies.deeds.hands import HandsDeed
from builds.remedies.deeds.heat import HeatDeed
from builds.remedies.deeds.hold import HoldDeed
from builds.remedies.deeds.home import HomeDeed
from builds.remedies.deeds.kinds import KINDS, OFFERED, parse, parse_all
from builds.remedies.deeds.off import OffDeed
from builds.remedies.deeds.part import PartDeed
from builds.remedies.deeds.room import RoomDeed
from builds.remedies.deeds.session import SessionDeed
from builds.remedies.deeds.weigh import WeighDeed
from builds.remedies.facts.deed_rows import DeedRows
from tests.builds.remedies.remedy_kit import apply
from tests.factories import JobFactory, NeedFactory

DAY = date(2027, 3, 3)
STORED = {
    "again": AgainDeed(),
    "session.3.1080.1320.2027-03-03": SessionDeed(3, 1080, 1320, DAY),
    "off.3.2027-03-03": OffDeed(3, DAY),
    "hands.0.1080.1320.2027-03-03": HandsDeed(0, 1080, 1320, DAY),
    "defer.1.2.3": DeferDeed(1, (2, 3)),
    "part.9.2027-03-03": PartDeed(9, DAY),
    "heat.600.800.20000.2027-03-03": HeatDeed(600, 800, 20_000, DAY),
    "hold.-500.2027-03-03": HoldDeed(-500, DAY),
    "room.4": RoomDeed(4),
    "home.5": HomeDeed(5),
    "enter.6.7.8": EnterDeed(6, 7, 8),
    "weigh.5.4": WeighDeed(5, 4),
}


@pytest.mark.parametrize(("code", "deed"), STORED.items())
def test_a_code_that_a_database_holds_stays_what_it_was(code, deed):
    assert parse(code) == deed
    assert deed.code == code
    assert parse_all(f"{code} {code}") == (deed, deed)
    assert parse_all(codes([deed, AgainDeed()])) == (deed, AgainDeed())


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
@pytest.mark.parametrize("parts", ["nothing", "1.2027-03-03.1"])
def test_every_kind_is_known_by_its_own_name_and_refuses_a_code_of_another_shape(kind, parts):
    assert KINDS[kind.kind] is kind
    with pytest.raises(ValueError):
        parse(f"{kind.kind}.{parts}")


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
def test_what_no_button_sends_is_refused_in_a_sentence(owner, late, code):
    answer = apply(owner, late, code)
    assert "This cannot be done any more: look again." in answer.content.decode()
    assert Plan.objects.count() == 1


OWNERS = ("session", "off", "hands", "room", "home", "enter", "weigh")  # the first two: of somebody else


@pytest.mark.parametrize("deed", STORED.values(), ids=STORED)
def test_a_viewer_does_none_of_them_and_only_the_owner_arranges(cast, late, deed):
    rows = DeedRows(cast.garage)
    job = JobFactory(vehicle__garage=cast.garage)
    rows.members, rows.jobs, rows.needs = {3: cast.owner}, dict.fromkeys((2, 3), job), {9: NeedFactory(job=job)}
    assert deed.refusal(rows, cast.owner) is None
    assert deed.refusal(rows, cast.viewer)
    assert bool(deed.refusal(rows, cast.helper)) == (deed.kind in OWNERS)


@pytest.mark.parametrize("kind", sorted(KINDS.keys() - {kind.kind for kind in OFFERED} - {"again"}))
def test_what_is_only_tried_is_no_remedy(kind):
    (deed,) = (deed for deed in STORED.values() if deed.kind == kind)
    with pytest.raises(ValueError, match=f"{kind} is no remedy"):
        list(type(deed).changes([deed], None))
