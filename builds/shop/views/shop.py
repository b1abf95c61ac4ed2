"""The shop: how warm it is and will be, when it is heated, what the thermometer said."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.cure.facts.shop import shop_of
from builds.cure.models.shop import HeatedHours, TemperatureReading
from builds.shop.actions import shop
from builds.shop.forms.shop import DaysForm, HeatForm, ReadingForm
from builds.shop.pages.shop_page import shop_view
from garage import clock
from garage.access import refuse_working
from garage.http import GarageRequest, back, editable, once, page, require, see


@require_safe
def shop_page(request: GarageRequest) -> HttpResponse:
    garage = request.member.garage
    context = {
        "view": shop_view(garage, clock.now()),
        "works": refuse_working(request.member) is None,
    }
    form = ReadingForm(garage=garage)
    return page(request, "builds/shop/shop_page.html", context, menu="shop", form=form)


@once
def shop_read(request: GarageRequest) -> HttpResponse:
    require(refuse_working(request.member))
    garage = request.member.garage
    form = ReadingForm(request.POST or None, garage=garage)
    if form.is_valid():
        shop.read(garage, by=request.member, at=clock.now(), **form.cleaned_data)
        messages.success(request, "Written down; what cures is told anew from it.")
        return back(request, reverse("shop_page"))
    return page(request, "builds/shop/shop_read.html", menu="shop", form=form)


@require_POST
@once
def shop_forget(request: GarageRequest, pk: int) -> HttpResponse:
    shop.forget(editable(TemperatureReading, request.member, pk=pk))
    messages.success(request, "The reading is taken out.")
    return back(request, reverse("shop_page"))


@once
def shop_days(request: GarageRequest) -> HttpResponse:
    require(refuse_working(request.member))
    garage = request.member.garage
    known = shop_of(garage, clock.now())
    form = DaysForm(request.POST or None, garage=garage, today=known.today, entered=known.entered.days)
    if form.is_valid():
        held = form.cleaned_data["held_mc"]
        if held is None:
            shop.set_days(garage, form.written())
        else:
            shop.hold_at(garage, known.today, held)
        messages.success(request, "The days ahead are changed.")
        return see(reverse("shop_page"))
    return page(request, "builds/shop/shop_days.html", menu="shop", form=form)


@once
def shop_heat(request: GarageRequest) -> HttpResponse:
    require(refuse_working(request.member))
    garage = request.member.garage
    known = shop_of(garage, clock.now())
    form = HeatForm(request.POST or None, garage=garage, today=known.today)
    if form.is_valid():
        shop.heat(garage, **form.cleaned_data)
        messages.success(request, "The heated hours are changed.")
        return see(reverse("shop_page"))
    return page(request, "builds/shop/shop_heat.html", menu="shop", form=form)


@require_POST
@once
def shop_unheat(request: GarageRequest, pk: int) -> HttpResponse:
    shop.heat_no_more(editable(HeatedHours, request.member, pk=pk))
    messages.success(request, "It is not heated then any more.")
    return back(request, reverse("shop_page"))
