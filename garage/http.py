"""What views share: the member who asks, guarded fetching, and writes that count once."""

import hashlib
import json
import uuid
from collections.abc import Callable, Sequence
from datetime import datetime
from functools import wraps
from typing import Any, TypeVar, cast

from django.contrib.auth import get_user
from django.contrib.messages import SUCCESS, get_messages
from django.core.exceptions import PermissionDenied
from django.core.files.uploadedfile import UploadedFile
from django.db import IntegrityError, models, transaction
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect, QueryDict
from django.shortcuts import get_object_or_404, render
from django.template.response import TemplateResponse
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.text import slugify
from django.views.decorators.http import require_http_methods
from django_htmx.middleware import HtmxDetails

from garage import clock, keys, writes
from garage.access import refuse_arranging, refuse_work_on
from garage.actions import journal
from garage.engine.devices import device_kind
from garage.engine.words import seen_text
from garage.member_mark import mark_of
from garage.models import Garage, Membership, Person, Receipt, Vehicle
from garage.public import public

Model = TypeVar("Model", bound=models.Model)
View = Callable[..., HttpResponse]
NOT_IN_BODY = {"csrfmiddlewaretoken"}
LAST_ID = 2**63 - 1  # of a row, in either database


class GarageRequest(HttpRequest):
    """A request of someone signed in; `member` and `garages` are set by the middleware."""

    member: Membership
    garages: list[Garage]
    htmx: HtmxDetails
    user: Person


def page_context(request: HttpRequest) -> dict[str, Any]:
    """Context of every page: the whole of it, or for htmx its main part alone."""
    htmx = getattr(request, "htmx", None)
    part = bool(htmx) and not htmx.history_restore_request
    host = request.get_host().rsplit(":", 1)[0]
    member = getattr(request, "member", None)
    return {
        "member_mark": mark_of(member) if member else "",
        "base_template": "fragment.html" if part else "base.html",
        "insecure_banner": not request.is_secure() and host not in ("localhost", "127.0.0.1", "[::1]", "testserver"),
    }


def visible(rows: Any, member: Membership, *, beside: Sequence[str] = (), **which: Any) -> Any:
    """The one row of `rows` (a scoped model) that the member can see, else 404; with the rows `beside` it."""
    if any(isinstance(value, int) and value > LAST_ID for value in which.values()):
        raise Http404
    seen = rows.objects.visible_to(member)
    one = get_object_or_404(seen.select_related(*beside) if beside else seen, **which)
    for known in (one, *(getattr(one, name) for name in beside if "__" not in name)):
        if getattr(known, "garage_id", None) == member.garage_id:
            known.garage = member.garage  # whose count of writes was read before the row (see garage/remembered.py)
    return one


def editable(rows: Any, member: Membership, **which: Any) -> Any:
    """As `visible`; seen but not his to change is 403 with the reason."""
    one = visible(rows, member, **which)
    if not rows.objects.editable_by(member).filter(pk=one.pk).exists():
        owner_only = rows.objects.none().owner_only and member.role != Membership.Role.VIEWER
        refused = refuse_arranging(member) if owner_only else refuse_work_on(member, car_of(one))
        raise PermissionDenied(refused)
    return one


def car_of(one: models.Model) -> Vehicle | None:
    """The car that a row of a scoped model is of, if it is of one."""
    known: Any = one
    for name in filter(None, type(one)._default_manager.none().car_path.split("__")):
        known = getattr(known, name, None)
    return known if isinstance(known, Vehicle) else None


def require(refusal: str | None) -> None:
    """Raise 403 with the sentence of a refusal, if there is one."""
    if refusal:
        raise PermissionDenied(refusal)


def back(request: HttpRequest, fallback: str) -> HttpResponseRedirect:
    """303 to the page that the form names in `next`, if it is ours, else to `fallback`."""
    return see(ours(request, request.POST.get("next", ""), fallback))


def ours(request: HttpRequest, wanted: str, fallback: str) -> str:
    """The wanted address if it is of this garage's own pages, else `fallback`."""
    safe = len(wanted) <= 400 and url_has_allowed_host_and_scheme(wanted, {request.get_host()})
    return wanted if safe else fallback


def see(url: str) -> HttpResponseRedirect:
    answer = HttpResponseRedirect(url)
    answer.status_code = 303
    return answer


def page(
    request: HttpRequest,
    template: str,
    context: dict[str, Any] | None = None,
    *,
    menu: str = "",
    form: Any = None,
    status: int = 0,
) -> HttpResponse:
    """A page; a bound form with errors answers 422 and keeps what was typed.

    It is drawn once the view is over, and with it the transaction of a write: nobody waits for a page that is drawn.
    """
    wrong = form is not None and form.is_bound and form.errors
    return TemplateResponse(
        request,
        template,
        {"menu": menu, "form": form, **(context or {})},
        status=status or (422 if wrong else 200),
    )


def shown_once(
    request: HttpRequest, template: str, context: dict[str, Any], *, address: str, home: str
) -> HttpResponse:
    """A page with an `address` whose token is kept nowhere: a double tap goes `home`."""
    context = {"address": public(address), **context}
    answer = page(request, template, context, status=201)
    answer["Location"] = home
    return answer


def garage_not_required(view: View) -> View:
    """As Django's `login_not_required`: open to a person who is signed in and in no garage."""
    view.garage_required = False
    return view


def pdf(data: bytes, name: str) -> HttpResponse:
    """A file to look at or print, under a name that is safe in a header and on a disk."""
    answer = HttpResponse(data, content_type="application/pdf")
    answer["Content-Disposition"] = f'inline; filename="{slugify(name)[:80] or "sheet"}.pdf"'
    return answer


def as_seen(sent: QueryDict) -> QueryDict:
    """What was sent, each text as it is seen: nothing that hides or turns words round is kept."""
    seen = QueryDict(mutable=True, encoding=sent.encoding)
    for name, values in sent.lists():
        seen.setlist(name, [seen_text(value) for value in values])
    seen._mutable = False
    return seen


def _content(file: UploadedFile) -> str:
    digest = hashlib.sha256()
    for chunk in file.chunks():
        digest.update(chunk)
    file.seek(0)
    return digest.hexdigest()


def _digest(request: HttpRequest) -> str:
    """Of everything sent but the CSRF token; of files their names and what is in them."""
    sent = [[name, values] for name, values in sorted(request.POST.lists()) if name not in NOT_IN_BODY]
    files = [[name, [[file.name, _content(file)] for file in files]] for name, files in sorted(request.FILES.lists())]
    return hashlib.sha256(json.dumps([request.path, sent, files]).encode()).hexdigest()


def key_of(request: HttpRequest) -> uuid.UUID | None:
    """The key of the button that was pressed, None where there is none."""
    sent = request.headers.get("Idempotency-Key") or request.POST.get("key", "")
    try:
        return uuid.UUID(sent[:40])
    except ValueError:
        return None


def _sentence(request: HttpRequest, status: int, line: str) -> HttpResponse:
    return render(request, "400.html", {"sentence": line}, status=status)


def _stand_in_line(request: HttpRequest) -> datetime | None:
    """Writes of one garage come one after the other, so that what a write has looked at still stands as it acts.

    SQLite has one writer anyway; elsewhere the garage's row is held until the transaction's end. Returns when it
    was written to last.
    """
    member = getattr(request, "member", None)
    if not member:
        return None
    held = Garage.objects.select_for_update(no_key=True)
    member.garage = get_object_or_404(held, pk=member.garage_id)
    return member.garage.written_at


def _other_units(request: HttpRequest) -> bool:
    """Whether figures were typed into a form of other units than the garage's: 30 psi are not 30 bar."""
    member: Membership | None = getattr(request, "member", None)
    return member is not None and request.POST.get("drawn_units", member.garage.units) != member.garage.units


def once(view: View) -> View:
    """GET draws the form, POST writes: in one transaction, once for each drawn key.

    A repeat of the same key gets the first answer; the same key with other content is 422;
    an answer of 400 or more rolls back, its receipt included, so the mended form can be sent.
    The garage counts each write.
    """

    @wraps(view)
    def guarded(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        if request.method != "POST":
            return view(request, *args, **kwargs)
        request.POST = as_seen(request.POST)
        key = key_of(request)
        if key is None:
            return _sentence(request, 400, "This form came without its key: reload and try again.")
        if keys.too_old(key, clock.now()):
            line = "This button was drawn more than a month ago: reload, and look again."
            return _sentence(request, 410, line)
        if _other_units(request):
            line = "The garage reads in other units since this was drawn: reload, and write the figures down again."
            return _sentence(request, 422, line)
        return _written_once(request, key, lambda: view(request, *args, **kwargs))

    guarded.writes = True  # read by the house tests
    return require_http_methods(["GET", "HEAD", "POST"])(guarded)


def _keep(request: HttpRequest, member: Membership, location: str) -> None:
    """In the journal: what was done, with what was answered to it."""
    said = [str(told) for told in get_messages(request)._queued_messages if told.level == SUCCESS]  # not yet shown
    journal.write(
        member.garage_id,
        by=member,
        act=request.resolver_match.url_name,
        paths=(request.path, location),
        said=" ".join(said),
        device=device_of(request),
        at=clock.now(),
    )


def device_of(request: HttpRequest) -> str:
    """The kind of device that asks."""
    return device_kind(request.headers.get("User-Agent", ""))


def _written_once(request: HttpRequest, key: uuid.UUID, write: Callable[[], HttpResponse]) -> HttpResponse:
    person, digest = cast(Person, get_user(request)), _digest(request)
    try:
        with transaction.atomic(), clock.after(_stand_in_line(request)):
            receipt = Receipt.objects.create(person=person, key=key, digest=digest)
            answer = write()
            if answer.status_code >= 400:
                transaction.set_rollback(True)
            else:
                receipt.location = answer.headers.get("Location", "")[:500]
                receipt.save(update_fields=["location"])
                if member := getattr(request, "member", None):
                    if not getattr(request, "refused", False):
                        _keep(request, member, receipt.location)
                    writes.count(member.garage_id, at=clock.now())
        return answer
    except IntegrityError:
        first = Receipt.objects.filter(person=person, key=key).first()
        if first is None:
            raise
    if first.digest != digest:
        return _sentence(request, 422, "This button was used already, for something else: reload and try again.")
    answer = see(first.location or request.path)
    answer["Idempotency-Replayed"] = "true"
    return answer
