"""What is taken along: a garage as open files, what it holds of a person; and a person erased."""

from django.contrib import messages
from django.http import FileResponse, HttpResponse
from django.http.response import HttpResponseBase
from django.urls import reverse
from django.views.decorators.http import require_safe

from garage import clock
from garage.access import refuse_arranging, refuse_data
from garage.actions.erase import erase
from garage.actions.export_garage import exported
from garage.actions.person_data import person_data as data_of
from garage.http import GarageRequest, editable, once, page, require, see, visible
from garage.logs import note
from garage.models import Membership
from garage.pages.open_files import guide_text, open_file_name
from garage.refusals import refused_aloud


@require_safe
def garage_export(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    return page(request, "garage/garage_export.html", menu="garage")


@require_safe
def garage_export_file(request: GarageRequest) -> HttpResponseBase:
    require(refuse_arranging(request.member))
    garage, at, emails = request.member.garage, clock.now(), "emails" in request.GET
    with refused_aloud(request):
        file = exported(garage, guide=guide_text(), emails=emails, at=at)
        note("garage exported", request, garage=garage.pk, emails=emails)
        return FileResponse(file, as_attachment=True, filename=open_file_name(garage.name, at))
    return see(reverse("garage_export"))


@require_safe
def person_data(request: GarageRequest, pk: int) -> HttpResponseBase:
    whose, at = visible(Membership, request.member, pk=pk, erased_at=None), clock.now()
    require(refuse_data(request.member, whose))
    with refused_aloud(request):
        file = data_of(whose, at=at)
        note("data given out", request, whose=whose.person_id)
        return FileResponse(file, as_attachment=True, filename=open_file_name(whose.name, at))
    return see(reverse("person_list"))


@once
def person_erase(request: GarageRequest, pk: int) -> HttpResponse:
    whose = editable(Membership, request.member, pk=pk, erased_at=None)
    if request.method == "POST":
        with refused_aloud(request):
            erase(whose, by=request.member, at=clock.now())
            note("person erased", request, membership=whose.pk)
            messages.success(request, "Erased. What was done stays in the books, by “somebody who left”.")
            return see(reverse("person_list"))
    return page(request, "garage/person_erase.html", {"whose": whose}, menu="people")
