"""A sum opened for a car before anything was typed."""

from builds.bench.catalogue import SUMS
from builds.sums.forms import sum_form


def test_a_car_that_has_no_figures_gets_the_form_quiet():
    """Opened from a job nothing is wrong yet; sent so, it is told."""
    for slug, asked in SUMS.items():
        first = sum_form(asked, {}, "metric", {})
        assert not first.errors, slug
        if slug in ("camber", "steering-change"):
            sent = {name: str(first[name].value() or "") for name in first.fields}
            assert sum_form(asked, sent, "metric", {}).errors, slug
