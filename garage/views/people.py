"""People: who they are here, what they can do, and how they get in."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from garage import clock, writes
from garage.access import refuse_arranging, refuse_data, refuse_hours, refuse_identity, refuse_presence
from garage.actions import people, sign_in
from garage.facts.presence import local_minute
from garage.forms.people import PersonForm, SkillForm
from garage.http import GarageRequest, back, editable, once, page, require, see, visible
from garage.logs import note
from garage.models import Device, Membership, Skill
from garage.models.device import DeviceQuerySet
from garage.pages.people import away_ahead, days_ahead, gone_people, suggested_end
from garage.pages.people import people as cards
from garage.public import public
from garage.refusals import refused_aloud, refused_at


@require_safe
def person_list(request: GarageRequest) -> HttpResponse:
    arranges = refuse_arranging(request.member) is None
    context = {
        "people": cards(request.member, at=clock.now()),
        "skills": Skill.objects.visible_to(request.member),
        "arranges": arranges,
        "gone": gone_people(request.member) if arranges else [],
        "sees_hours": refuse_presence(request.member) is None,
    }
    return page(request, "garage/person_list.html", context, menu="people")


@require_safe
def person_page(request: GarageRequest, pk: int) -> HttpResponse:
    whose, at = visible(Membership, request.member, pk=pk, left_at=None), clock.now()
    arranges, sees_hours = refuse_arranging(request.member) is None, refuse_presence(request.member) is None
    context = {
        "whose": whose,
        "card": cards(request.member, at=at, pk=pk)[0],
        "sees_hours": sees_hours,
        "days": days_ahead(whose, local_minute(whose.garage, at)[0]) if sees_hours else [],
        "away": away_ahead(whose, at) if sees_hours else [],
        "until": suggested_end(whose.garage, at),
        "arranges": arranges,
        "keeps_hours": refuse_hours(request.member, whose) is None,
        "sees_email": refuse_data(request.member, whose) is None,
        "devices": _devices(request, whose),
    }
    return page(request, "garage/person_page.html", context, menu="people")


def _devices(request: GarageRequest, whose: Membership) -> DeviceQuerySet | None:
    """Where he is signed in, to whoever may sign him out there."""
    mine = whose.person_id == request.user.pk
    if not mine and (refuse_arranging(request.member) or refuse_identity(whose, people.is_elsewhere(whose))):
        return None
    return Device.objects.of(whose.person).live(clock.now())


@once
def person_add(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    form = PersonForm(request.POST or None, garage=request.member.garage)
    if form.is_valid():
        member = people.add(request.member.garage, **form.told())
        writes.count_for(member.person, at=clock.now())
        note("role changed", request, whose=member.person_id, role=member.role)
        messages.success(request, f"{member} is there{'' if form.cleaned_data['week'] else ': next, the hours'}.")
        return see(reverse("person_page", args=[member.pk]))
    return page(request, "garage/person_form.html", form=form, menu="people")


@once
def person_edit(request: GarageRequest, pk: int) -> HttpResponse:
    whose = editable(Membership, request.member, pk=pk, left_at=None)
    name, role = whose.name, whose.role
    form = PersonForm(request.POST or None, garage=whose.garage, member=whose)
    if form.is_valid():
        with refused_at(form, "role"):
            people.change(whose, **form.told())
            writes.count_for(whose.person, at=clock.now())
            if whose.role != role:
                note("role changed", request, whose=whose.person_id, role=whose.role)
            messages.success(request, f"{whose} is changed.")
            return see(reverse("person_page", args=[pk]))
    context = {"whose": whose, "name": name}
    return page(request, "garage/person_form.html", context, form=form, menu="people")


@require_POST
@once
def person_delete(request: GarageRequest, pk: int) -> HttpResponse:
    whose = editable(Membership, request.member, pk=pk, left_at=None)
    with refused_aloud(request):
        people.remove(whose, at=clock.now())
        note("role changed", request, whose=whose.person_id, role="none")
        messages.success(request, f"{whose} is out. What {whose} did stays in the books.")
        return see(reverse("person_list"))
    return see(reverse("person_edit", args=[pk]))


@once
def person_link(request: GarageRequest, pk: int) -> HttpResponse:
    whose = editable(Membership, request.member, pk=pk, left_at=None)
    require(refuse_identity(whose, people.is_elsewhere(whose)))
    context = {"whose": whose, "link": ""}
    if request.method == "POST":
        token = sign_in.make_link(whose.person, lasts=sign_in.LINK_FOR_ANOTHER, at=clock.now())
        note("link made", request, whose=whose.person_id)
        context["link"] = public(reverse("sign_in_link", args=[token]))
    return page(request, "garage/person_link.html", context, menu="people")


@require_POST
@once
def person_link_revoke(request: GarageRequest, pk: int) -> HttpResponse:
    whose = editable(Membership, request.member, pk=pk, left_at=None)
    require(refuse_identity(whose, people.is_elsewhere(whose)))
    sign_in.revoke_link(whose.person)
    note("link revoked", request, whose=whose.person_id)
    messages.success(request, f"The sign-in link of {whose} is revoked.")
    return back(request, reverse("person_page", args=[pk]))


@require_POST
@once
def person_sign_out(request: GarageRequest, pk: int) -> HttpResponse:
    whose = editable(Membership, request.member, pk=pk, left_at=None)
    require(refuse_identity(whose, people.is_elsewhere(whose)))
    sign_in.end_sessions(whose.person, at=clock.now())
    note("signed out elsewhere", request, whose=whose.person_id)
    messages.success(request, f"{whose} is signed out on every device.")
    return see(reverse("person_page", args=[pk]))


@once
def skill_add(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    form = SkillForm(request.POST or None, garage=request.member.garage)
    if form.is_valid():
        skill = people.add_skill(request.member.garage, **form.cleaned_data)
        messages.success(request, f"{skill} can be asked of people and jobs now.")
        return see(reverse("person_list"))
    return page(request, "garage/skill_add.html", form=form, menu="people")
