"""Headers of every answer, whatever its status; cookies and settings as they ship with HTTPS."""

import json
import os
import subprocess
import sys

import pytest
from django.contrib.auth.decorators import login_not_required
from django.http import HttpResponse
from django.test import Client, RequestFactory
from django.urls import include, path

from garage import clock
from garage.actions.sign_in import OWN_LINK, make_link
from garage.uploads import TooMuch
from garage.views import faults
from tests.conftest import Browserless
from tests.house.places import ROOT

POLICY = {
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "img-src 'self' blob:",
    "connect-src 'self'",
    "font-src 'self'",
    "manifest-src 'self'",
    "worker-src 'self'",
    "form-action 'self'",
    "frame-ancestors 'none'",
    "base-uri 'none'",
    "object-src 'none'",
}
OTHERS = {
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Cross-Origin-Opener-Policy": "same-origin",
}


@login_not_required
def breaks(request) -> HttpResponse:
    raise RuntimeError("the database password is hunter2")


urlpatterns = [path("", include("garage.urls")), path("breaks/", breaks)]
handler400 = "garage.views.faults.bad_request"
handler500 = "garage.views.faults.server_error"


def answer_of(status: int, cast) -> HttpResponse:
    """An answer of each status that the site gives."""
    client = Client(raise_request_exception=False)
    if status == 200:
        return client.get("/sign-in/")
    if status == 302:
        return client.get("/")
    if status == 303:
        return cast.client("owner").post("/sign-out/")
    if status == 400:
        return client.get("/sign-in/", HTTP_HOST="evil.example")
    if status == 403:
        return cast.client("helper").get("/people/add/")
    if status == 404:
        return client.get("/nothing/here/")
    if status == 405:
        return client.get("/sign-out/")
    if status == 422:
        return client.post("/sign-in/", {"email": ""})
    if status == 429:
        wrong = {"email": "nobody@example.org", "password": "a guess at it"}
        return [client.post("/sign-in/", wrong) for _ in range(6)][-1]
    return client.get("/breaks/")


@pytest.mark.parametrize("status", [200, 302, 303, 400, 403, 404, 405, 422, 429, 500])
def test_every_answer_carries_them(cast, settings, status):
    settings.ROOT_URLCONF = __name__
    answer = answer_of(status, cast)
    assert answer.status_code == status
    assert set(answer["Content-Security-Policy"].split("; ")) == POLICY
    assert {name: answer[name] for name in OTHERS} == OTHERS
    assert answer["Referrer-Policy"] in ("same-origin", "no-referrer", "strict-origin")
    if status != 400:  # a host that is not ours is told nothing by any view
        assert "no-store" in answer["Cache-Control"]


def test_files_carry_them_too(client, db, settings, tmp_path):
    settings.STATIC_ROOT = tmp_path
    settings.WHITENOISE_AUTOREFRESH = True
    settings.WHITENOISE_USE_FINDERS = True
    answer = Client().get("/static/css/ground.css")
    assert answer.status_code == 200
    assert answer["Content-Type"].startswith("text/css")
    assert set(answer["Content-Security-Policy"].split("; ")) == POLICY
    assert {name: answer[name] for name in OTHERS} == OTHERS
    assert "Access-Control-Allow-Origin" not in answer


@pytest.mark.parametrize("host", ["evil.example", "testserver:80@evil", "testserver.evil.example"])
def test_another_host_is_refused(client, db, host):
    for name in ("/sign-in/", "/", "/health/"):
        answer = Client().get(name, HTTP_HOST=host)
        assert answer.status_code == 400
        assert "evil" not in answer.content.decode()


def test_a_page_and_its_fragment_are_told_apart(owner):
    page = owner.get("/people/")
    part = owner.get("/people/", headers={"HX-Request": "true"})
    assert "<html" in page.content.decode()
    assert "<html" not in part.content.decode()
    for answer in (page, part):
        assert "HX-Request" in answer["Vary"]
        assert "Cookie" in answer["Vary"]


def test_what_broke_is_told_to_the_log_alone(client, db, settings, caplog):
    settings.ROOT_URLCONF = __name__
    answer = Client(raise_request_exception=False).get("/breaks/")
    shown = answer.content.decode()
    assert "hunter2" not in shown
    assert "Traceback" not in shown
    assert "hunter2" in caplog.text
    reference = caplog.messages[-1].rsplit(" ", 1)[1]
    assert len(reference) == 8
    assert reference in shown


def test_a_form_of_another_site_is_refused(cast):
    client = Browserless(enforce_csrf_checks=True)
    client.force_login(cast.owner.person)
    assert client.press("/skills/add/", {"name": "Upholstery"}).status_code == 403
    token = client.get("/skills/add/").context["csrf_token"]
    data = {"name": "Upholstery", "csrfmiddlewaretoken": str(token)}
    away = {"Origin": "https://evil.example"}
    assert client.press("/skills/add/", data, headers=away).status_code == 403
    assert client.press("/skills/add/", data).status_code == 303
    other = Browserless(enforce_csrf_checks=True)
    other.force_login(cast.owner.person)
    assert other.press("/skills/add/", {**data, "name": "Trim"}).status_code == 403


@pytest.mark.parametrize("method", ["put", "delete", "patch", "trace", "options"])
def test_methods_that_no_page_has_are_refused(owner, method):
    for name in ("/people/", "/people/add/", "/health/"):
        assert getattr(owner, method)(name).status_code == 405
    assert owner.post("/people/").status_code == 405


def test_a_thousand_and_one_fields_are_too_many(owner):
    assert owner.post("/people/add/", {f"f{n}": "1" for n in range(1001)}).status_code == 400


@pytest.mark.parametrize("pk", ["abc", "-1", "99999999999999999999", "１２", "1_0", "٣", "%00"])
def test_an_id_that_is_none_is_not_there(owner, pk):
    assert owner.get(f"/people/{pk}/").status_code == 404


def manage(*words: str, tmp_path, **env: str) -> subprocess.CompletedProcess[str]:
    """A command in a process of its own, with only these variables of ours set."""
    ours = {"DATA_DIR": str(tmp_path), "DEBUG": "off", **env}
    kept = {name: os.environ[name] for name in ("PATH", "HOME", "LANG") if name in os.environ}
    return subprocess.run(  # noqa: S603  (our own interpreter and words)
        [sys.executable, "manage.py", *words],
        cwd=ROOT,
        env=kept | ours,
        text=True,
        capture_output=True,
    )


def test_the_settings_that_ship_pass_every_deployment_check(tmp_path):
    done = manage("check", "--deploy", "--fail-level", "DEBUG", tmp_path=tmp_path, HTTPS="on")
    assert done.returncode == 0, done.stderr
    assert "no issues (0 silenced)" in done.stdout


def test_without_https_the_check_says_what_is_missing(tmp_path):
    done = manage("check", "--deploy", "--fail-level", "WARNING", tmp_path=tmp_path)
    assert done.returncode == 1
    assert all(f"security.W0{number}" in done.stderr for number in ("04", "08", "12", "16"))


def test_cookies_over_https(tmp_path):
    code = (
        "import django, json; django.setup(); from django.conf import settings as s;"
        " print(json.dumps([s.SESSION_COOKIE_NAME, s.CSRF_COOKIE_NAME, s.SESSION_COOKIE_SECURE,"
        " s.CSRF_COOKIE_SECURE, s.SESSION_COOKIE_HTTPONLY, s.SESSION_COOKIE_SAMESITE,"
        " s.SECURE_HSTS_SECONDS >= 31536000, s.SECURE_SSL_REDIRECT]))"
    )
    done = manage("shell", "--no-imports", "-c", code, tmp_path=tmp_path, HTTPS="on")
    assert json.loads(done.stdout) == [
        "__Host-session",
        "__Host-csrf",
        *[True] * 3,
        "Lax",
        *[True] * 2,
    ]


def test_cookies_are_hidden_from_scripts_and_other_sites(cast):
    client = Client()
    token = make_link(cast.owner.person, lasts=OWN_LINK, at=clock.now())
    client.get(f"/enter/{token}/")
    assert client.cookies["csrftoken"]["samesite"] == "Lax"
    session = client.post(f"/enter/{token}/").cookies["sessionid"]
    assert (session["httponly"], session["samesite"]) == (True, "Lax")
    assert session["max-age"] == 14 * 24 * 3600


@pytest.mark.parametrize("key", ["short", "django-insecure-" + "x" * 60, " " * 60 + "x", "x" * 49])
def test_a_weak_key_does_not_start_and_says_why_in_a_line(tmp_path, key):
    done = manage("check", tmp_path=tmp_path, SECRET_KEY=key)
    assert done.returncode != 0
    assert done.stderr.count("\n") == 1
    assert "SECRET_KEY is too weak" in done.stderr
    assert key.strip() not in done.stderr


def test_a_key_is_made_once_and_read_by_its_owner_alone(tmp_path):
    for _ in range(2):
        assert manage("check", tmp_path=tmp_path).returncode == 0
        key = (tmp_path / "secret.key").read_text()
    assert len(key) > 80
    assert (tmp_path / "secret.key").stat().st_mode & 0o777 == 0o600
    assert manage("check", tmp_path=tmp_path).returncode == 0
    assert (tmp_path / "secret.key").read_text() == key


def test_only_who_is_known_to_be_signed_out_has_his_phone_forget(cast, now):
    """A page of a fault is drawn without knowing who asks: it says nothing of it."""
    request = RequestFactory().get("/")
    for fault in (faults.server_error(request), faults.bad_request(request, TooMuch("Too much."))):
        assert b"data-signed-out" not in fault.content
    assert b"data-signed-out" in Client().get("/sign-in/").content
    inside = Client()
    inside.force_login(cast.helper.person)
    assert b"data-signed-out" not in inside.get("/").content
