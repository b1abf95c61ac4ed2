"""Job cards: all that a pair of hands needs."""

from builds.steps.engine.cautions import cautions_for
from builds.today.facts.asked import Asked
from builds.today.pages.card_sheet import card_sheet_rows
from tests.conftest import queries
from tests.factories import (
    NOW,
    HoldPointFactory,
    JobFactory,
    LinkFactory,
    NeedFactory,
    VehicleFactory,
)


def card_of(sheet, title):
    return next(card for hand in sheet.hands for card in hand.cards if card.title == title)


def test_a_card_says_all_that_hands_need(cast, weld):
    sheet = card_sheet_rows(cast.garage, NOW, Asked())
    assert [hand.name.split(",")[0] for hand in sheet.hands] == ["Ines", "Tove"]
    card = card_of(sheet, "Weld the arm")
    assert f"{weld.vehicle}, safety: someone gets hurt" in card.facts
    assert any("with Tove" in fact for fact in card.facts)
    assert "At: Weld bay" in " ".join(card.facts)
    assert card.address.endswith(f"/jobs/{weld.pk}/")
    assert card.cautions == tuple(each.text for each in cautions_for(["steering"], ["joint_opened"]))
    assert card.cautions
    assert [(tick.what, tick.note) for tick in card.parts] == [
        ("Tie rod", "on the shelf: Shelf B"),
        ("odd bracket", "to find"),
    ]
    assert [(row.what, row.note) for row in card.torques] == [
        ("Tie rod end: 55 N·m", "M12 × 1.25, 10.9"),
        ("Nut 140 N·m, lubricated.", "from the note"),
    ]
    assert [(point.what, point.mark) for point in card.points] == [
        ("Root pass", ""),
        ("Fit-up", "full"),
    ]


def test_cards_for_one_person_are_hers_alone(cast, weld):
    sheet = card_sheet_rows(cast.garage, NOW, Asked(person=cast.owner))
    assert [hand.name.split(",")[0] for hand in sheet.hands] == ["Ines"]
    assert card_of(sheet, "Weld the arm").facts[1].endswith("with Tove")


def test_a_card_says_why_it_cannot_be_begun(cast, weld):
    after = JobFactory(vehicle=weld.vehicle, title="Paint")
    LinkFactory(before=weld, after=after)
    card = card_of(card_sheet_rows(cast.garage, NOW, Asked(job=after)), "Paint")
    assert card.blocks == ("“Weld the arm” has to be done first: it is in hand.",)


def test_a_card_says_that_its_hands_are_in_work_that_is_not_left_half_done(cast, weld):
    weld.kinds = ["hot_work"]
    weld.save()
    other = JobFactory(vehicle=VehicleFactory(garage=cast.garage, name="Wren"), title="Fan")
    sheet = card_sheet_rows(cast.garage, NOW, Asked(job=other))
    assert card_of(sheet, "Fan").blocks == ()  # of nobody in particular: others may begin it
    same = JobFactory(vehicle=weld.vehicle, title="Second crack")
    (said,) = card_of(card_sheet_rows(cast.garage, NOW, Asked(job=same)), "Second crack").blocks
    assert said.startswith("“Weld the arm” on") and "sparks fly" in said


def test_a_card_whose_people_have_left_is_printed_all_the_same(cast, weld):
    cast.helper.left_at = cast.owner.left_at = NOW
    cast.helper.save()
    cast.owner.save()
    (hand,) = card_sheet_rows(cast.garage, NOW, Asked()).hands
    assert hand.name == "Nobody in particular has these"
    assert [card.title for card in hand.cards] == ["Weld the arm"]


def test_a_job_that_is_over_has_no_card(cast, entry):
    over = JobFactory(vehicle=entry.vehicle, state="done", finished_at=NOW)
    assert card_sheet_rows(cast.garage, NOW, Asked(job=over)).hands == ()


def test_as_many_queries_for_forty_jobs_as_for_one(viewer, cast, weld):
    paths = ("/cards/sheet.pdf", f"/cards/sheet.pdf?event={weld.vehicle.entries.get().event_id}")
    first = [queries(viewer, path) for path in paths]
    for number in range(40):
        job = JobFactory(vehicle=weld.vehicle, title=f"Job {number}")
        NeedFactory(job=job)
        HoldPointFactory(job=job)
    assert [queries(viewer, path) for path in paths] == first


def test_the_plan_for_the_wall_stands_beside_the_cards(owner, weld):
    page = owner.get("/").content.decode()
    assert '<a class="button" href="/plan/sheet.pdf">The plan (PDF)</a>' in page.partition("On paper")[2]
    assert owner.get("/plan/sheet.pdf")["Content-Type"] == "application/pdf"
