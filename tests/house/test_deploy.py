"""The files by which a server is set up say what the settings and the commands want of them."""

import re
from itertools import takewhile

from django.core.management import get_commands
from django.urls import get_resolver

from tests.house.places import ROOT
from tests.house.test_names import patterns_below

DEPLOY = ROOT / "garage" / "deploy"
MB = 1024**2


def read(name):
    return (DEPLOY / name).read_text()


def test_the_proxy_says_what_the_settings_believe_it():
    told = read("proxy.conf")
    sent = dict(re.findall(r"proxy_set_header (\S+) (\S+);", told))
    # As set anew, and not added to what a browser sent: `address_of` and SECURE_PROXY_SSL_HEADER believe them.
    assert sent["X-Forwarded-Proto"] == "$scheme" and sent["X-Forwarded-For"] == "$remote_addr"
    assert sent["Host"] == "$host" and "location = /metrics { return 404; }" in told
    most = int(re.search(r"client_max_body_size (\d+)m;", told)[1]) * MB
    assert most > max(getattr(one.callback, "files_most", 0) for one in patterns_below(get_resolver().url_patterns))


def test_units_start_what_there_is_and_hold_the_worker_as_they_hold_the_server():
    server, worker = read("witness-mark.service"), read("witness-mark-worker@.service")
    commands = re.findall(r"python manage.py (\w+)", server + worker + read("Containerfile"))
    assert commands and set(commands) <= get_commands().keys()
    assert "gunicorn garage.wsgi\n" in server

    def held(unit):
        rest = unit.partition("StateDirectory=")[2].splitlines()
        return list(takewhile(lambda line: not line.startswith("["), rest))

    assert held(server) == held(worker) and "ProtectSystem=strict" in held(server)


def test_a_container_has_the_driver_that_the_tests_run_with():
    pinned = re.search(r"^psycopg\S+==\S+", (ROOT / "tests/requirements.txt").read_text(), re.M)[0]
    for file in ("garage/deploy/Containerfile", "README.md", "DEVELOPERS.md"):
        assert set(re.findall(r"psycopg\[binary\]==[\d.]+", (ROOT / file).read_text())) == {pinned}, file
