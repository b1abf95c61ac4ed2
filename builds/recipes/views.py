"""Recipes: read, put onto a car, kept as the garage's own."""

from dataclasses import replace

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.recipes.actions import own
from builds.recipes.actions import putting as recipes
from builds.recipes.engine.mend import leave_out
from builds.recipes.engine.recipe import RecipeError
from builds.recipes.facts import (
    KnownRecipe,
    alike_to,
    known_recipe,
    known_recipes,
    met_on,
    skill_names,
    station_names,
)
from builds.recipes.forms import OwnRecipeForm, PutForm, SeveralForm
from builds.recipes.pages import by_system, load_recipe, put_words
from garage import clock
from garage.access import refuse_arranging, refuse_working
from garage.http import GarageRequest, once, page, require, see
from garage.models import Vehicle


def _known(request: GarageRequest, key: str) -> KnownRecipe:
    known = known_recipe(request.member.garage, key)
    if known is None:
        raise Http404
    return known


@require_safe
def recipe_list(request: GarageRequest) -> HttpResponse:
    context = {
        "systems": by_system(known_recipes(request.member.garage)),
        "car": _car(request),
        "works": refuse_working(request.member) is None,
    }
    return page(request, "builds/recipes/recipe_list.html", context, menu="cars")


def _car(request: GarageRequest) -> Vehicle | None:
    """The car one came from or chose, if it is one of ours; the only one where nobody said which."""
    wanted = request.POST.get("vehicle") or request.GET.get("car", "")
    mine = Vehicle.objects.on_cars_of(request.member).kept()
    if not wanted:
        cars = mine[:2]
        return cars[0] if len(cars) == 1 else None
    return mine.filter(pk=wanted).first() if wanted.isdecimal() and len(wanted) < 19 else None


@require_safe
def recipe_page(request: GarageRequest, key: str) -> HttpResponse:
    known = _known(request, key)
    context = {
        "view": load_recipe(request.member.garage, known),
        "known": known,
        "car": _car(request),
        "works": refuse_working(request.member) is None,
        "owns": refuse_arranging(request.member) is None,
    }
    return page(request, "builds/recipes/recipe_page.html", context, menu="cars")


@once
def recipe_put(request: GarageRequest, key: str) -> HttpResponse:
    known = _known(request, key)
    require(refuse_working(request.member))
    car = _car(request)
    form = PutForm(
        request.POST or None,
        recipe=known.recipe,
        member=request.member,
        met=met_on(known.recipe, car) if car else {},
        alike=alike_to(known.recipe, car) if car else {},
        initial={"vehicle": car},
    )
    if form.is_valid():
        vehicle = form.cleaned_data["vehicle"]
        made = recipes.put_at(
            known.recipe,
            form.cleaned_data.get("side", ""),
            vehicle,
            by=request.member,
            at=clock.now(),
            leave_out=form.leave_out(),
            changes=form.changes(),
            one_for_all=form.one_for_all(),
        )
        messages.success(request, put_words(request.member.garage, [known.recipe], vehicle, made))
        return see(reverse("vehicle_page", args=[vehicle.pk]))
    return page(request, "builds/recipes/recipe_put.html", {"known": known}, form=form, menu="cars")


@once
def recipe_put_several(request: GarageRequest) -> HttpResponse:
    require(refuse_working(request.member))
    form = SeveralForm(
        request.POST or None,
        member=request.member,
        recipes=known_recipes(request.member.garage),
        initial={"vehicle": _car(request)},
    )
    if form.is_valid():
        vehicle, chosen = form.cleaned_data["vehicle"], form.chosen()
        made = recipes.put_several(chosen, vehicle, by=request.member, at=clock.now(), side=form.cleaned_data["side"])
        messages.success(request, put_words(request.member.garage, chosen, vehicle, made))
        return see(reverse("vehicle_page", args=[vehicle.pk]))
    return page(request, "builds/recipes/recipe_put_several.html", form=form, menu="cars")


@once
def recipe_edit(request: GarageRequest, key: str) -> HttpResponse:
    known, garage = _known(request, key), request.member.garage
    require(refuse_arranging(request.member))
    form = OwnRecipeForm(
        request.POST or None,
        recipe=known.recipe,
        skills=skill_names(garage),
        stations=station_names(garage),
    )
    if form.is_valid():
        changed = recipes.with_jobs(known.recipe, form.changes())
        told = form.cleaned_data
        changed = replace(changed, title=told["recipe_title"], summary=told["summary"])
        try:
            own.keep_own(garage, leave_out(changed, form.leave_out()), at=clock.now())
        except RecipeError as error:
            form.add_error(None, str(error))
        else:
            messages.success(request, f"“{changed.title}” is now your own copy.")
            return see(reverse("recipe_page", args=[key]))
    return page(request, "builds/recipes/recipe_edit.html", {"known": known}, form=form, menu="cars")


@require_POST
@once
def recipe_reset(request: GarageRequest, key: str) -> HttpResponse:
    require(refuse_arranging(request.member))
    own.forget_own(request.member.garage, key)
    known = _known(request, key)
    messages.success(request, f"“{known.recipe.title}” is again as it comes with the program.")
    return see(reverse("recipe_page", args=[key]))
