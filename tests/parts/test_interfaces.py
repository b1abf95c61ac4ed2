"""What a part fits: structured fields, kept in one spelling, refused in a sentence."""

import pytest

from tests.parts.factories import PartFactory

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def nut(cast):
    return PartFactory(garage=cast.garage, name="Nut")


def add(client, part, kind, **fields):
    return client.press(f"/parts/{part.pk}/fit/{kind}/add/", fields)


def kept(part):
    part.refresh_from_db()
    return part.interfaces


def test_each_kind_is_kept_in_one_spelling_and_shown_on_the_part(helper, nut):
    answer = add(helper, nut, "thread", thread="m12 x 1,25", side="internal", seat="cone60", strength="class 10")
    assert (answer.status_code, answer["Location"]) == (303, f"/parts/{nut.pk}/#fit")
    add(helper, nut, "wheel", pattern="5x4½", bore="66,6", seat="")
    add(helper, nut, "hub", pattern="5×112", spigot="57.1", seat="r13")
    add(helper, nut, "electrical", volts="12 V", connector="three-pin  plug")
    assert kept(nut) == [
        {"kind": "thread", "thread": "M12×1.25", "side": "internal", "seat": "cone60", "strength": "10"},
        {"kind": "wheel", "pattern": "5×114.3", "bore": "66.6"},
        {"kind": "hub", "pattern": "5×112", "spigot": "57.1", "seat": "r13"},
        {"kind": "electrical", "volts": "12", "connector": "three-pin plug"},
    ]
    view = helper.get(f"/parts/{nut.pk}/").context["view"]
    assert [face.words for face in view.row.faces] == [
        "M12×1.25 nut, 60° cone, class 10",
        "wheel 5×114.3, bore 66.6 mm",
        "hub 5×112, spigot 57.1 mm, ball R13",
        "12 V, three-pin plug",
    ]
    assert view.row.faces[0].note == (
        "Engage at least 12 mm in steel (9.6 full turns), 18 mm in soft metal (14.4 turns)."
    )
    assert view.row.faces[1].note == ("Neighbouring studs stand 67.18 mm apart, centre to centre.")


REFUSED = [
    ("thread", {"thread": "", "side": "internal"}, "thread", "This field is required."),
    ("thread", {"thread": "M12"}, "side", "This field is required."),
    ("thread", {"thread": "M13", "side": "internal"}, "thread", "M13 has no coarse pitch: write"),
    ("thread", {"thread": "M12-6g", "side": "internal"}, "thread", "M12×1.75-6g is a bolt by its"),
    ("thread", {"thread": "M" * 5000, "side": "internal"}, "thread", "Ensure this value has at"),
    ("thread", {"thread": "M12\0", "side": "internal"}, "thread", "Null characters are not"),
    ("thread", {"thread": "M12", "side": "up"}, "side", "Select a valid choice."),
    ("thread", {"thread": "M12", "side": "external", "strength": "hard"}, "strength", "A strength class is one"),
    ("wheel", {"pattern": "five"}, "pattern", "“five” is no bolt pattern: write one such as"),
    ("wheel", {"pattern": "5x112", "bore": "NaN"}, "bore", "“NaN” is not a size: write a number"),
    ("wheel", {"pattern": "5x112", "bore": "3"}, "bore", "A bore of 3 mm is no wheel's: 10"),
    ("hub", {"pattern": "5x112", "seat": "square"}, "seat", "Select a valid choice."),
    ("electrical", {}, "volts", "Write the voltage, the connector, or both."),
    ("electrical", {"volts": "1e9"}, "volts", "“1e9” is not a size: write a number"),
    ("electrical", {"volts": "9999"}, "volts", "A voltage is more than 0 and not above 1000 V."),
]


@pytest.mark.parametrize(("kind", "fields", "field", "sentence"), REFUSED)
def test_what_cannot_be_read_is_said_at_its_field(owner, nut, kind, fields, field, sentence):
    answer = add(owner, nut, kind, **fields)
    assert answer.status_code == 422
    assert answer.context["form"].errors[field][0].startswith(sentence)
    assert kept(nut) == []
    assert {name: answer.context["form"].data[name] for name in fields} == fields


def test_the_same_is_written_once_and_no_more_than_twelve(owner, nut):
    add(owner, nut, "thread", thread="M12", side="internal")
    twice = add(owner, nut, "thread", thread="M12x1.75", side="internal")
    said = ["M12×1.75 nut is written down already."]
    assert twice.context["form"].non_field_errors() == said
    for size in range(11):
        add(owner, nut, "electrical", volts=f"{size + 1}")
    full = add(owner, nut, "electrical", volts="48")
    assert "12 is the most" in full.context["form"].non_field_errors()[0]
    assert len(kept(nut)) == 12


def test_one_is_taken_away_and_a_second_tap_does_nothing(helper, nut):
    add(helper, nut, "thread", thread="M12", side="internal")
    add(helper, nut, "electrical", volts="12")
    for _ in range(2):
        answer = helper.press(f"/parts/{nut.pk}/fit/delete/", {"said": "M12×1.75 nut"})
        assert answer.status_code == 303
    assert kept(nut) == [{"kind": "electrical", "volts": "12"}]


def test_no_other_kind(owner, nut):
    assert add(owner, nut, "glue").status_code == 404


def test_who_may(cast, nut):
    wanted = {"owner": 303, "helper": 303, "viewer": 403, "stranger": 404, "nobody": 302}
    for number, (who, status) in enumerate(wanted.items(), start=1):
        client = cast.client(who)
        answer = add(client, nut, "electrical", volts=str(number))
        assert answer.status_code == status
        answer = client.press(f"/parts/{nut.pk}/fit/delete/", {"said": "nothing"})
        assert answer.status_code == status
    assert "Delete" not in cast.client("viewer").get(f"/parts/{nut.pk}/").content.decode()


def test_markup_in_a_connector_is_shown_as_typed(owner, nut):
    add(owner, nut, "electrical", connector="<b>plug</b>")
    body = owner.get(f"/parts/{nut.pk}/").content.decode()
    assert "&lt;b&gt;plug" in body and "<b>plug" not in body


def test_what_can_no_longer_be_read_counts_as_not_written_down(owner, cast):
    part = PartFactory(garage=cast.garage, interfaces=[{"kind": "thread", "thread": "what"}, {}])
    view = owner.get(f"/parts/{part.pk}/").context["view"]
    assert view.row.faces == ()
    assert owner.press(f"/parts/{part.pk}/fit/delete/", {"said": "M12"}).status_code == 303
    assert len(kept(part)) == 2
