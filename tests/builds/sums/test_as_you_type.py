"""The answer alone is redrawn as somebody types; what is wrong is said beside it, since the fields stay."""

import pytest

pytestmark = [pytest.mark.django_db, pytest.mark.once, pytest.mark.usefixtures("now")]
TYPING = {"HTTP_HX_REQUEST": "true", "HTTP_HX_TARGET": "worked"}


def test_typing_redraws_the_answer(owner):
    body = owner.get("/sums/corner-weights/?fl=1&fr=x", **TYPING).content.decode()
    assert "<html" not in body
    assert "Front right: Write a number such as 12.5 or 12,5" in body


def test_the_whole_page_says_it_at_the_field_alone(owner):
    assert "Front right: Write a number" not in owner.get("/sums/corner-weights/?fl=1&fr=x").content.decode()
