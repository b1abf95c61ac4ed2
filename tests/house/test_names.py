"""One name in four places: address, view, template, and the noun's own test file."""

import pytest
from django.urls import URLPattern, get_resolver

from tests.house.places import ROOT, files


def views(patterns=None):
    found = {}
    for pattern in patterns or get_resolver().url_patterns:
        if isinstance(pattern, URLPattern):
            found[pattern.name] = pattern.callback
        else:
            found |= views(pattern.url_patterns)
    return found


VIEWS = views()
# Test files are named after the noun; these views share the file of the noun they serve.
TESTED_BY = {
    "door": "sign_in",
    "searches": "plan_search",
    "plan": "plan_page",
    "steps": "job_states",
}


@pytest.mark.parametrize("name", VIEWS)
def test_an_address_is_called_as_its_view(name):
    assert VIEWS[name].__name__ == name


@pytest.mark.parametrize("name", VIEWS)
def test_a_view_names_its_noun_first_and_stands_in_its_module(name):
    app, folder, module = VIEWS[name].__module__.split(".")
    assert folder == "views" and app in ("garage", "parts", "builds")
    tested = TESTED_BY.get(module, module)
    wanted = [ROOT / f"tests/{app}/test_{tested}{end}.py" for end in ("", "_page")]
    assert any(file.exists() for file in wanted), f"no test file for {app}/views/{module}.py"


@pytest.mark.parametrize(
    "stem",
    sorted(
        f"{file.parent.name}/{file.stem}"
        for app in ("garage", "parts", "builds")
        for file in files("*.html", f"templates/{app}")
        if not file.stem.endswith(("_part", "_base"))
    ),
)
def test_a_template_is_called_as_a_view(stem):
    name = stem.split("/")[1]
    # A form shared by adding and changing, and the page that shows what was just made.
    shared = name.removesuffix("_form").removesuffix("_made")
    assert name in VIEWS or {f"{shared}_add", f"{shared}_edit"} & set(VIEWS)
