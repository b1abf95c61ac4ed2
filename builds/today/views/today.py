"""Today: who is in, what is next for each, what cures, what waits for a second pair of eyes."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from builds.cars.facts import fleet_of
from builds.cars.pages.key_board import car_cards
from builds.gear.pages import warned_gear
from builds.plan.views.following import follows
from builds.today.pages.today import load_today
from builds.work.models.owed import Owed
from garage import clock
from garage.access import refuse_arranging, refuse_working
from garage.http import GarageRequest, page


@require_safe
@follows
def today(request: GarageRequest) -> HttpResponse:
    fleet = fleet_of(request.member.garage, clock.now())
    view = load_today(request.member, fleet)
    context = {
        "view": view,
        "key_board": car_cards(fleet, view.left),
        "gear_soon": warned_gear(fleet.garage, fleet.at, view.ahead),
        "works": refuse_working(request.member) is None,
        "owed": Owed.objects.visible_to(request.member).open().count(),
        "owns": refuse_arranging(request.member) is None,
    }
    return page(request, "builds/today/today.html", context, menu="today")
