"""How old readings may be in this garage."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse

from builds.readings.actions.ages import set_ages
from builds.readings.facts.kinds import kinds_of
from builds.readings.forms.ages import ReadingAgesForm
from builds.readings.models.age import ReadingAge
from garage.access import refuse_arranging
from garage.http import GarageRequest, once, page, require, see


@once
def reading_ages(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    garage = request.member.garage
    days = dict(ReadingAge.objects.visible_to(request.member).values_list("kind", "days"))
    form = ReadingAgesForm(request.POST or None, kinds=kinds_of(garage).values(), days=days)
    if form.is_valid():
        set_ages(garage, form.days())
        messages.success(request, "How old readings may be is kept.")
        return see(reverse("reading_ages"))
    return page(request, "builds/readings/reading_ages.html", {}, form=form, menu="cars")
