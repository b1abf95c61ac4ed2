"""The door: in by password or by a one-time link, and out."""

from django.contrib import messages
from django.contrib.auth import login, logout
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.urls import reverse
from django.utils.cache import patch_cache_control
from django.utils.encoding import iri_to_uri
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from garage import clock
from garage.actions import sign_in as door
from garage.address import address_of
from garage.engine.words import wait_words
from garage.forms.door import SignInForm
from garage.http import back, garage_not_required, ours, page, see
from garage.logs import note
from garage.middleware import begin_session
from garage.models import Person

# Where he wanted to go before he was asked to sign in, for as long as a link is looked for in a chat.
WANTED, WANTED_FOR = "wanted", 30 * 60
WRONG = "This e-mail and password do not go together, or there is no such account."


def _enter(request: HttpRequest, person: Person, how: str) -> None:
    login(request, person)
    begin_session(request, clock.now())
    door.forget_receipts(at=clock.now())
    note("signed in", request, how=how)


def _arrived(answer: HttpResponse) -> HttpResponse:
    """Where he wanted to go is forgotten, however he got in."""
    answer.delete_cookie(WANTED, samesite="Lax")
    return answer


def _page(request: HttpRequest, form: SignInForm, status: int = 0, sentence: str = "") -> HttpResponse:
    wanted = request.POST.get("next") or request.GET.get("next", "")
    context = {"next": wanted, "sentence": sentence}
    answer = page(request, "garage/sign_in.html", context, form=form, status=status)
    if ours(request, wanted, ""):
        # Whoever has no password signs in by a link, which knows nothing of this page: his browser does.
        told = {"max_age": WANTED_FOR, "httponly": True, "samesite": "Lax", "secure": request.is_secure()}
        answer.set_signed_cookie(WANTED, iri_to_uri(wanted), salt=WANTED, **told)
    return answer


def _wait(request: HttpRequest, form: SignInForm, seconds: int) -> HttpResponse:
    note("throttled", request, seconds=seconds)
    sentence = f"Too many tries: wait {wait_words(seconds)}, then try again."
    answer = _page(request, form, 429, sentence)
    answer["Retry-After"] = str(seconds)
    return answer


@login_not_required
@sensitive_post_parameters("password")
@require_http_methods(["GET", "HEAD", "POST"])
def sign_in(request: HttpRequest) -> HttpResponse:
    if request.user.is_authenticated:
        return see(ours(request, request.POST.get("next") or request.GET.get("next", ""), reverse("today")))
    form = SignInForm(request.POST or None)
    if form.is_valid():
        outcome = door.by_password(**form.cleaned_data, address=address_of(request), at=clock.now())
        if outcome.wait:
            return _wait(request, form, outcome.wait)
        if outcome.person:
            _enter(request, outcome.person, "password")
            return _arrived(back(request, reverse("today")))
        form.add_error(None, WRONG)
        note("sign-in failed", request)
    return _page(request, form, 400 if form.too_long() else 0)


@login_not_required
@require_http_methods(["GET", "HEAD", "POST"])
def sign_in_link(request: HttpRequest, token: str) -> HttpResponse:
    if request.method == "POST":
        person = door.by_link(token, at=clock.now())
        if person is None:
            raise Http404
        _enter(request, person, "link")
        if not person.has_usable_password():
            messages.info(request, "You are in. A password lets you in again without a link.")
        wanted = request.get_signed_cookie(WANTED, "", salt=WANTED, max_age=WANTED_FOR)
        return _arrived(see(ours(request, wanted, reverse("today"))))
    link = door.link_of(token, at=clock.now())
    if link is None and request.user.is_authenticated and door.used_by(token, request.user):
        return see(reverse("today"))
    if link is None:
        raise Http404
    answer = page(request, "garage/sign_in_link.html", {"person": link.person})
    # Not `no-referrer`: the browser would then send `Origin: null`, which no form may have.
    answer["Referrer-Policy"] = "strict-origin"
    answer["X-Robots-Tag"] = "noindex, nofollow"
    patch_cache_control(answer, private=True, no_store=True)
    return answer


@login_not_required
@garage_not_required
@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    if request.user.is_authenticated:
        note("signed out", request)
    logout(request)
    answer = see(reverse("sign_in"))
    # Not the storage: what was written on this phone without signal waits there under its writer's name. The pages
    # that it keeps go with the next page (see static/js/app.js).
    answer["Clear-Site-Data"] = '"cache"'
    return answer
