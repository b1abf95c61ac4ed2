"""Sheets as PDF."""

from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_safe

from builds.paper.pages.checklist import checklist_rows
from builds.paper.pages.drive_tag import drive_tag_rows, is_tagged, tagged_car
from builds.paper.pages.plan_sheet import plan_sheet_rows
from builds.paper.pages.setup_sheet import setup_sheet_rows
from builds.paper.pages.story_sheet import story_sheet_rows
from builds.paper.sheets import plan, setup, story
from builds.paper.sheets.checklist import checklist
from builds.paper.sheets.drive_tag import drive_tag
from builds.plan.views.following import follows
from garage import clock
from garage.http import GarageRequest, page, pdf, see, visible
from garage.models import Entry, Vehicle


@require_safe
@follows
def checklist_sheet(request: GarageRequest, pk: int) -> HttpResponse:
    entry = visible(Entry, request.member, pk=pk)
    return pdf(checklist(checklist_rows(entry, clock.now())), f"{entry.vehicle} {entry.event}")


@require_safe
def drive_tag_sheet(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    return pdf(drive_tag(drive_tag_rows(vehicle, clock.now())), f"do not drive {vehicle}")


@login_not_required
@require_safe
def drive_tag_page(request: HttpRequest, code: str) -> HttpResponse:
    """Where the tag's code leads: whoever works on the car to its page, anybody else is told just that."""
    vehicle, member = tagged_car(code), getattr(request, "member", None)
    if vehicle is None:
        raise Http404
    car_url = reverse("vehicle_page", args=[vehicle.pk])
    if member and member.garage_id == vehicle.garage_id:
        return see(car_url)
    context = {"forbids": is_tagged(vehicle, clock.now()), "car_url": car_url}
    answer = page(request, "builds/paper/drive_tag_page.html", context)
    answer["X-Robots-Tag"] = "noindex, nofollow"
    return answer


@require_safe
def setup_sheet(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    return pdf(setup.setup_sheet(setup_sheet_rows(vehicle, clock.now())), f"setup {vehicle}")


@require_safe
@follows
def wall_sheet(request: GarageRequest) -> HttpResponse:
    member = request.member
    return pdf(plan.plan_sheet(plan_sheet_rows(member.garage, clock.now(), member, older=request.cannot_plan)), "plan")


@require_safe
def story_sheet(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    rows = story_sheet_rows(vehicle, clock.now(), request.GET.get("part", "1"))
    return pdf(story.story_sheet(rows), f"photos {vehicle}")
