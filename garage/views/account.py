"""One's own account: name, how one signs in, where one is signed in."""

from django.contrib import messages
from django.contrib.auth import update_session_auth_hash
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from garage import clock, writes
from garage.actions import accounts, journal
from garage.actions.refused import Refused
from garage.actions.sign_in import end_sessions
from garage.forms.account import AccountForm, SignInSettingsForm
from garage.http import GarageRequest, garage_not_required, once, page, see
from garage.logs import note
from garage.middleware import begin_session
from garage.models import Device


@garage_not_required
@once
def account_page(request: GarageRequest) -> HttpResponse:
    at = clock.now()
    form = AccountForm(request.POST or None, instance=request.user)
    if form.is_valid():
        form.save()
        writes.count_for(request.user, at=at)
        messages.success(request, "Your account is changed.")
        return see(reverse("account_page"))
    context = {"devices": Device.objects.of(request.user).live(at), "here": request.session.session_key}
    return page(request, "garage/account_page.html", context, form=form, menu="account")


@garage_not_required
@sensitive_post_parameters("current", "password")
@require_http_methods(["GET", "HEAD", "POST"])
def account_sign_in(request: GarageRequest) -> HttpResponse:
    """Not `once`: hashing is slow and stays out of transactions; twice does what once does."""
    form = SignInSettingsForm(request.POST or None, person=request.user)
    if form.is_valid() and _changed(request, form):
        messages.success(request, "You sign in this way from now on.")
        return see(reverse("account_page"))
    return page(request, "garage/account_sign_in.html", form=form, menu="account")


def _changed(request: GarageRequest, form: SignInSettingsForm) -> bool:
    person, sent, at = request.user, form.cleaned_data, clock.now()
    try:
        if "current" in sent:
            accounts.prove(person, sent["current"], at=at)
    except Refused as refused:
        note("sign-in failed", request)
        form.add_error("current", str(refused))
        return False
    accounts.change_sign_in(person, email=sent["email"], password=sent["password"], at=at)
    note("password changed" if sent["password"] else "e-mail changed", request)
    if request.member:
        journal.write(request.member.garage, by=request.member, act="account_sign_in", paths=(), at=at)
    if sent["password"]:
        update_session_auth_hash(request, person)
        begin_session(request, at)
    return True


@garage_not_required
@require_POST
@once
def account_elsewhere(request: GarageRequest) -> HttpResponse:
    at = clock.now()
    end_sessions(request.user, at=at)
    begin_session(request, at)
    note("signed out elsewhere", request)
    messages.success(request, "Every other device is signed out.")
    return see(reverse("account_page"))
