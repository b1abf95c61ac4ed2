"""Looking for what fits: by size on the shelf, and with what does not fit and why."""

import pytest
from django.utils.http import urlencode

from tests.conftest import queries
from tests.parts.factories import PartFactory
from tests.parts.test_parts import listed

pytestmark = pytest.mark.usefixtures("now")


def thread(cast, name, size, side):
    kept = [{"kind": "thread", "thread": size, "side": side}]
    return PartFactory(garage=cast.garage, name=name, interfaces=kept)


def wheel(cast, name, pattern, bore=""):
    kept = {"kind": "wheel", "pattern": pattern, "seat": "cone60"} | ({"bore": bore} if bore else {})
    return PartFactory(garage=cast.garage, name=name, interfaces=[kept])


@pytest.fixture
def shelf(cast):
    thread(cast, "Nyloc, fine", "M12×1.25", "internal")
    thread(cast, "Nut, middling", "M12×1.5", "internal")
    thread(cast, "Nut, inch", "1/2-20", "internal")
    thread(cast, "Bolt, fine", "M12×1.25", "external")
    wheel(cast, "Alloy, wide bore", "5×112", "73.1")
    wheel(cast, "Alloy, tight bore", "5×112", "57.1")
    wheel(cast, "Alloy, never measured", "5×112")
    wheel(cast, "Alloy, near", "5×114.3", "73.1")
    PartFactory(garage=cast.garage, name="Washer")
    PartFactory(garage=cast.garage, name="M12×1.25 nut, unnamed elsewhere")


def asked(path, text):
    return f"{path}?{urlencode({'q': text})}"


def groups(client, text):
    view = client.get(asked("/shelf/fit/", text)).context["view"]
    return {group.label: [row.part.name for row in group.rows] for group in view.groups}


@pytest.mark.parametrize("text", ["M12×1.25 nuts", "m12x1,25 nut", "nut M12-1.25"])
def test_nuts_by_their_thread_in_the_shelfs_own_box(owner, shelf, text):
    assert "Nyloc, fine" in listed(owner, asked("/shelf/", text))
    others = {"Bolt, fine", "Nut, middling", "Nut, inch", "Washer"}
    assert others.isdisjoint(listed(owner, asked("/shelf/", text)))


def test_words_and_sizes_together_and_words_alone_as_before(owner, shelf):
    assert listed(owner, asked("/shelf/", "nyloc M12×1.25")) == ["Nyloc, fine"]
    assert listed(owner, asked("/shelf/", "M12×1.25")) == [
        "Bolt, fine",
        "M12×1.25 nut, unnamed elsewhere",
        "Nyloc, fine",
    ]
    assert listed(owner, asked("/shelf/", "nut")) == [
        "M12×1.25 nut, unnamed elsewhere",
        "Nut, inch",
        "Nut, middling",
    ]


def test_what_is_found_by_its_words_alone_is_not_known_to_fit(owner, shelf):
    rows = owner.get(asked("/shelf/", "M12×1.25 nut")).context["rows"]
    assert {row.part.name: row.fit.state for row in rows} == {
        "M12×1.25 nut, unnamed elsewhere": "not_known",
        "Nyloc, fine": "fits",
    }
    assert all(row.fit is None for row in owner.get("/shelf/").context["rows"])


def test_wheels_by_pattern_and_bore(owner, shelf):
    assert listed(owner, asked("/shelf/", "5×112, bore ≥ 66.6")) == ["Alloy, wide bore"]
    assert groups(owner, "5×112, bore ≥ 66.6") == {
        "Not known to fit": ["Alloy, never measured", "Alloy, wide bore"],
        "Does not fit": ["Alloy, near", "Alloy, tight bore"],
    }
    assert groups(owner, "5×112, bore ≥ 66.6, cone seat") == {
        "Fits": ["Alloy, wide bore"],
        "Not known to fit": ["Alloy, never measured"],
        "Does not fit": ["Alloy, near", "Alloy, tight bore"],
    }


def test_what_does_not_fit_says_why_from_its_geometry(owner, shelf):
    assert groups(owner, "M12×1.25 nut") == {
        "Fits": ["Nyloc, fine"],
        "Does not fit": ["Nut, inch", "Nut, middling", "Bolt, fine"],
    }
    body = owner.get(asked("/shelf/fit/", "M12×1.25 nut")).content.decode()
    assert "It is a bolt, M12×1.25: a nut is wanted." in body
    assert "M12×1.25 in 1/2-20 spins on with only 49 % of the thread overlapping" in body
    assert "a quarter pitch in 1.5 turns" in body


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "Write a size first."),
        ("washer", "No size can be read in “washer”"),
        ("M10 nut", "Does not fit"),
        ("12 V", "No part says anything of that kind"),
        ("<b>", "“&lt;b&gt;”"),
        ("a\0b", "Write a size first."),
        ("M" * 5000, "Write a size first."),
    ],
)
def test_whatever_is_typed_gets_an_answer(owner, shelf, text, said):
    answer = owner.get(asked("/shelf/fit/", text))
    assert answer.status_code == 200
    assert said in answer.content.decode()


def test_nobody_sees_another_garages_shelf(stranger, shelf):
    assert groups(stranger, "M12×1.25 nut") == {}
    assert listed(stranger, asked("/shelf/", "M12×1.25")) == []


@pytest.mark.parametrize("path", ["/shelf/", "/shelf/fit/"])
def test_the_same_queries_for_few_parts_and_for_many(owner, cast, shelf, path):
    few = queries(owner, asked(path, "M12×1.25 nut"))
    for number in range(30):
        thread(cast, f"Nut {number}", "M12×1.25", "internal")
    assert queries(owner, asked(path, "M12×1.25 nut")) == few
