"""Figures for a program that watches the server: in an open format, for its operator alone, of no garage by name."""

import re
from array import array
from datetime import timedelta

import pytest
from django.core.exceptions import ImproperlyConfigured
from django_tasks_db.models import DBTaskResult, get_date_max

from garage import env, request_counts
from garage.engine.open_metrics import Family, Sample, gauge, text_of
from tests.conftest import signed_in
from tests.factories import NOW

# OpenMetrics 1.0, "ABNF": names, labels, numbers; every family's lines stand together, and `# EOF` ends them.
LINE = re.compile(r'[a-z_]+(\{[a-z]+="[^"\n]*"(,[a-z]+="[^"\n]*")*\})? -?\d+(\.\d+)?(e[+-]?\d+)?')
NO_GUESS = "no-guess-of-anybody-1"


def figures(text):
    lines = text.splitlines()
    assert text.endswith("\n# EOF\n") and lines.count("# EOF") == 1
    told = [line for line in lines if not line.startswith("#")]
    assert all(LINE.fullmatch(line) for line in told)
    names = re.findall(r"^# TYPE (\w+) (?:gauge|counter|histogram|info)$", text, re.M)
    assert len(names) == len(set(names)) == text.count("# TYPE") == text.count("# HELP")
    return dict(line.rsplit(" ", 1) for line in told)


@pytest.fixture
def folder(settings, tmp_path):
    settings.REQUEST_COUNTS_DIR, settings.BACKUP_DIR = tmp_path / "requests", tmp_path / "copies"
    settings.BACKUP_DIR.mkdir()
    request_counts.counts._process = 0  # this process begins anew there
    yield settings.REQUEST_COUNTS_DIR
    request_counts.counts._process = 0


def test_requests_queue_disk_database_and_backup_are_told_and_no_name(cast, client, folder, settings, now):
    made = NOW - timedelta(hours=3)
    (settings.BACKUP_DIR / f"witness-mark-{made:%Y%m%dT%H%M%S}Z.zip").write_bytes(b"x")
    waits = {"backend_name": "default", "args_kwargs": {}, "traceback": "", "run_after": get_date_max()}
    task = DBTaskResult.objects.create(status="READY", task_path="builds.plan.tasks.search", **waits)
    DBTaskResult.objects.filter(pk=task.pk).update(enqueued_at=NOW - timedelta(seconds=90))
    DBTaskResult.objects.create(status="RUNNING", task_path="builds.plan.tasks.search", **waits)
    owner = cast.client("owner")
    assert owner.get("/stations/").status_code == 200
    assert owner.press("/stations/add/", {}).status_code == 422
    client.get("/health/")  # who watches is not counted
    answer = client.get("/metrics")
    assert answer["Content-Type"] == "application/openmetrics-text; version=1.0.0; charset=utf-8"
    text = answer.content.decode()
    told = figures(text)
    assert told['witness_mark_requests_total{kind="read",answer="2xx"}'] == "1.0"
    assert told['witness_mark_requests_total{kind="save",answer="4xx"}'] == "1.0"
    assert told['witness_mark_request_seconds_count{kind="read"}'] == "1.0"
    assert told['witness_mark_request_seconds_bucket{kind="read",le="+Inf"}'] == "1.0"
    assert float(told['witness_mark_request_seconds_sum{kind="read"}']) > 0
    assert told["witness_mark_queue_waiting"] == "1" and told["witness_mark_queue_longest_wait_seconds"] == "90.0"
    assert told['witness_mark_tasks_running{task="search"}'] == "1"
    assert told["witness_mark_backup_age_seconds"] == "10800.0" and told["witness_mark_backups"] == "1"
    assert int(told["witness_mark_disk_free_bytes"]) > 0 and told["witness_mark_garages"] == "2"
    assert "witness_mark_database_bytes" in told
    assert not any(word in text for word in (cast.garage.name, "Ines", "Tove", str(settings.DATA_DIR)))


def test_all_processes_are_added_up_and_a_server_begins_anew(folder):
    request_counts.counts.add("read", 200, 0.05)
    request_counts.counts.add("read", 503, 60.0)
    (theirs := array("d", request_counts.added_up()))[0] = 7.0  # of another process
    (folder / "4711-1").write_bytes(theirs.tobytes())
    (folder / "of-another-version").write_bytes(b"abc")
    whole = request_counts.added_up()
    assert (whole[0], whole[3]) == (8.0, 2.0) and whole[request_counts.WIDTH - 1] == pytest.approx(2 * 60.05)
    assert whole[4] == 2.0 and whole[request_counts.WIDTH - 2] == 2.0  # the shortest bound, and beyond all
    request_counts.begin_anew()
    assert not any(request_counts.added_up())


def test_a_disk_that_takes_no_figures_hinders_no_page(folder, client, db):
    folder.parent.joinpath("requests").write_text("a file where a folder should be")
    assert client.get("/sign-in/").status_code == 200 and not any(request_counts.added_up())


@pytest.mark.parametrize(
    ("sent", "behind", "token", "status"),
    [
        ({}, False, "", 200),
        ({"REMOTE_ADDR": "::1"}, False, "", 200),
        ({"REMOTE_ADDR": "192.168.1.7"}, False, "", 404),
        ({"REMOTE_ADDR": "no address"}, False, "", 404),
        ({"HTTP_X_FORWARDED_FOR": "203.0.113.9"}, False, "", 404),  # a proxy that the settings know nothing of
        ({"HTTP_FORWARDED": "for=203.0.113.9"}, False, "", 404),
        ({"HTTP_X_FORWARDED_FOR": "127.0.0.1"}, True, "", 404),
        ({}, True, "", 404),
        ({}, False, NO_GUESS, 404),
        ({"HTTP_AUTHORIZATION": "Bearer guessed"}, False, NO_GUESS, 404),
        ({"HTTP_AUTHORIZATION": f"Bearer {NO_GUESS}", "REMOTE_ADDR": "192.168.1.7"}, True, NO_GUESS, 200),
    ],
)
def test_only_who_runs_the_server_reads_them(client, db, settings, sent, behind, token, status):
    settings.BEHIND_PROXY, settings.METRICS_TOKEN = behind, token
    assert client.get("/metrics", **sent).status_code == status


def test_an_owner_of_a_garage_elsewhere_on_the_network_is_not_the_operator(cast, settings):
    assert signed_in(cast.owner).get("/metrics", REMOTE_ADDR="192.168.1.7").status_code == 404


def test_what_is_not_known_has_no_sample_and_a_name_ends_with_its_unit():
    told = Family("a", "counter", "x", (Sample(2, "_total"),))
    whole = text_of([gauge("age_seconds", 'Since "then".\n', None, "seconds"), told])
    assert figures(whole) == {"a_total": "2"} and '\\"then\\".\\n' in whole
    with pytest.raises(ValueError, match="does not end with seconds"):
        text_of([gauge("age", "x", 1, "seconds")])


def test_a_token_that_is_soon_guessed_is_no_token(monkeypatch):
    monkeypatch.setenv("METRICS_TOKEN", "x" * 19)
    with pytest.raises(ImproperlyConfigured, match="20 random characters"):
        env.token("METRICS_TOKEN")
