"""Pages go compressed, and their lengths tell nothing."""

import gzip

from django.urls import reverse

PACKS = {"Accept-Encoding": "gzip"}


def test_a_page_goes_packed_to_who_can_unpack_it(owner):
    plain, packed = owner.get(reverse("today")), owner.get(reverse("today"), headers=PACKS)
    assert packed["Content-Encoding"] == "gzip" and "Accept-Encoding" in packed["Vary"]
    assert "Content-Encoding" not in plain
    assert b"</html>" in gzip.decompress(packed.content)
    assert len(packed.content) < len(plain.content) / 2


def test_the_length_of_a_page_is_left_to_chance(owner):
    """Whoever may ask for the same page again and again measures another length."""
    path = reverse("garage_settings")
    sizes = {len(owner.get(path, headers=PACKS).content) for _ in range(12)}
    assert len(sizes) > 6


def test_no_secret_of_a_page_stands_in_the_next_one(owner):
    path = reverse("garage_settings")
    first, second = (owner.get(path).content.decode() for _ in range(2))
    for name in ("csrfmiddlewaretoken", "key"):
        one, other = (_value(page, name) for page in (first, second))
        assert one and one != other


def _value(page, name):
    return page.split(f'name="{name}" value="')[1].split('"')[0]


def test_paper_goes_as_it_is(owner):
    answer = owner.get(reverse("pull_sheet"), headers=PACKS)
    assert answer["Content-Type"] == "application/pdf" and "Content-Encoding" not in answer
