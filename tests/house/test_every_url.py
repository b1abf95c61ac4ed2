"""Every address as owner, helper, viewer, stranger and nobody: none may be missing here."""

from contextlib import contextmanager

import pytest
from django.db import connection, transaction
from django.urls import URLPattern, get_resolver, resolve, reverse

from builds.plan.facts.stored import shown
from builds.recipes.models import OwnRecipe
from builds.work.models.link import Link
from garage import clock
from garage.actions import devices, shares
from garage.models import Device, Membership, Skill, Vehicle
from tests.factories import NOW
from tests.house.every_address import GOOD, TABLE, WHO, address


def names(patterns=None):
    found = []
    for pattern in patterns or get_resolver().url_patterns:
        if isinstance(pattern, URLPattern):
            found.append(pattern.name)
        else:
            found += names(pattern.url_patterns)
    return found


def test_the_table_has_every_address_and_no_other():
    assert sorted(names()) == sorted(TABLE)


def test_a_recipe_of_the_garages_own_and_a_skill_are_nobody_elses(rows, cast):
    assert not OwnRecipe.objects.visible_to(cast.stranger).exists()
    assert not Skill.objects.visible_to(cast.stranger).filter(garage=cast.garage).exists()
    assert Link.objects.visible_to(cast.owner).exists()
    assert not Link.objects.visible_to(cast.stranger).exists()


def read_by(who, name):
    """What somebody's look at an address is answered with."""
    _, answers, kind = TABLE[name]
    if name == "sign_out":
        return {302, 405}
    if kind == "send":
        return {302, 405} if who == "nobody" else {405}
    if name == "garage_settings" and who != "nobody":
        return GOOD  # all may read how the garage measures; the owner changes it
    return answers[WHO.index(who)]


@contextmanager
def noting_whether_the_plan_is_read():
    """Whether the plan on the wall was read within, told by what the database was asked."""
    read = []

    def listen(execute, sql, params, many, context):
        read.append('"builds_plan"."answer"' in sql and "shown" in (params or ()))
        return execute(sql, params, many, context)

    with connection.execute_wrapper(listen):
        yield read


WITH_ITS_BOARD = pytest.param("vehicle_list", marks=pytest.mark.board)


@pytest.mark.parametrize("name", [WITH_ITS_BOARD if name == "vehicle_list" else name for name in TABLE])
def test_reading(rows, cast, part_by_part, name):
    """Who may, and that a page which reads the plan on the wall has it follow: else it shows one left behind.

    What is round a page is the same for all of a garage: the owner reads every page with it, the others one, and on
    that one stands the board of all cars.
    """
    url = address(name, TABLE[name][0], rows)
    follows = getattr(resolve(url.partition("?")[0]).func, "follows_the_plan", False)
    for who in WHO:
        with noting_whether_the_plan_is_read() as read:
            whole = who == "owner" or name == "vehicle_list"
            status = (cast.client if whole else part_by_part)(who).get(url).status_code
        assert status in read_by(who, name), f"{who} got {status}"
        assert any(read) <= follows


def test_a_plan_that_is_read_is_noticed(rows, cast):
    with noting_whether_the_plan_is_read() as read:
        assert shown(cast.garage)
    assert any(read)


@pytest.mark.once
@pytest.mark.parametrize("name", [name for name, row in TABLE.items() if row[2] in ("form", "send")])
def test_writing(rows, part_by_part, name):
    what, answers, _ = TABLE[name]
    url = address(name, what, rows)
    for who, expected in zip(WHO, answers, strict=True):
        with transaction.atomic():  # each finds the rows as they were made
            status = part_by_part(who).press(url).status_code
            transaction.set_rollback(True)
        assert status in expected, f"{who} got {status}"


# What a helper writes who works on no car: of no car, a look at what others did, a word, or what is his own. The rest
# is work on a car.
OF_NO_CAR = {
    *("demo_leave", "garage_choose", "account_page", "account_sign_in", "account_elsewhere", "news_edit"),
    *("calendar_add", "comment_add", "hold_point_sign", "job_sign", "joint_sign", "joint_sign_many"),
    *("job_found", "job_seen"),
    *("shop_read", "shop_forget", "shop_days", "shop_heat", "shop_unheat", "plan_search", "plan_stop"),
    *("trial_add", "trial_keep", "trial_drop", "remedy_apply", "recipe_put", "recipe_put_several"),
    *("part_add", "part_edit", "part_move", "part_count", "want_add", "move_undo", "place_add", "place_edit"),
    *("interface_add", "interface_delete", "batch_add", "batch_columns", "batch_check", "batch_write", "batch_leave"),
    *("batch_row", "batch_row_drop", "reading_kind_add", "gear_add", "run_strip_down", "paddock_write"),
    *("pack_make", "pack_add", "pack_tick", "pack_remove"),
}


@pytest.mark.once
def test_whoever_works_on_no_car_reads_as_a_helper_and_writes_nothing_of_one(rows, cast, part_by_part):
    Membership.objects.filter(pk=cast.helper.pk).update(every_car=False, every_donor=False)
    elsewhere, astray = part_by_part("helper"), []
    for name, (what, answers, kind) in TABLE.items():
        url, allowed = address(name, what, rows), answers[WHO.index("helper")]
        if kind == "read" and 403 not in allowed and elsewhere.get(url).status_code == 403:
            astray.append(f"could not read {name}")
        if kind in ("form", "send") and allowed & GOOD and 403 not in allowed:
            with transaction.atomic():
                status = elsewhere.press(url).status_code
                transaction.set_rollback(True)
            if (status == 403) == (name in OF_NO_CAR):
                astray.append(f"wrote {name}: {status}")
    assert astray == []


@pytest.mark.once
@pytest.mark.parametrize("name", [name for name, row in TABLE.items() if row[2] == "read"])
def test_what_is_only_read_takes_no_post(rows, owner, name):
    assert owner.press(address(name, TABLE[name][0], rows)).status_code == 405


def test_the_clock_of_these_tests_stands(now):
    assert clock.now() == NOW


@pytest.mark.once
def test_a_guest_or_a_device_signed_out_gets_no_further_than_nobody(rows, cast, clock):
    """With a link that holds, with one that is over, and where somebody was signed in until it was ended there."""
    share, token = shares.make(by=cast.owner, at=NOW, days=3, vehicle=Vehicle.objects.get(pk=rows["vehicle"]))
    guest, late, ended = (cast.client(who) for who in ("nobody", "nobody", "owner"))
    assert all(client.get(reverse("share_page", args=[token])).status_code == 200 for client in (guest, late))
    ended.get("/")
    for device in Device.objects.of(cast.owner.person):
        devices.end(device)
    astray = []
    for name, (what, answers, kind) in TABLE.items():
        url = address(name, what, rows)
        for who, client in (("guest", guest), ("late", late), ("ended", ended)):
            clock.at = share.expires_at if who == "late" else NOW
            if client.get(url).status_code not in read_by("nobody", name):
                astray.append(f"{who} read {name}")
            if kind in ("form", "send") and client.press(url).status_code not in answers[WHO.index("nobody")]:
                astray.append(f"{who} wrote {name}")
    assert astray == []
    for at, status in ((NOW, 200), (share.expires_at, 404)):
        clock.at = at
        assert guest.get(reverse("share_page", args=[token])).status_code == status
