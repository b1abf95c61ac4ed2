"""`.env.example` names every variable that the settings read, and no other."""

import re

from tests.house.places import ROOT

READ = re.compile(r"""(?:env\.)?\b(?:text|flag|words|number|token)\(\s*"([A-Z_]+)\"""")
NAMED = re.compile(r"^([A-Z_]+)=", re.M)


def test_example_and_settings_name_the_same_variables():
    sources = "".join((ROOT / name).read_text() for name in ("garage/settings.py", "garage/env.py", "gunicorn.conf.py"))
    assert set(NAMED.findall((ROOT / ".env.example").read_text())) == set(READ.findall(sources))
