"""Products that cure: listed, read, and kept with the garage's own figures."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.cure.facts.products import KnownProduct, known_products
from builds.shop.actions import products
from builds.shop.forms.products import ProductForm
from builds.shop.pages.product_page import product_view
from garage import clock
from garage.access import refuse_arranging
from garage.actions.refused import Refused
from garage.http import GarageRequest, back, once, page, require, see
from garage.refusals import refused_aloud


def _known(request: GarageRequest, slug: str) -> KnownProduct:
    product = known_products(request.member.garage).get(slug)
    if product is None:
        raise Http404
    return product


def _keep(request: GarageRequest, form: ProductForm) -> HttpResponse | None:
    if not form.is_valid():
        return None
    try:
        products.keep_own(request.member.garage, form.product, at=clock.now())
    except Refused as refused:
        form.add_error(None, str(refused))
        return None
    messages.success(request, f"{form.product.name} has these figures now.")
    return see(reverse("product_page", args=[form.product.slug]))


@require_safe
def product_list(request: GarageRequest) -> HttpResponse:
    context = {
        "products": known_products(request.member.garage).values(),
        "arranges": refuse_arranging(request.member) is None,
    }
    return page(request, "builds/shop/product_list.html", context, menu="shop")


@require_safe
def product_page(request: GarageRequest, slug: str) -> HttpResponse:
    known = _known(request, slug)
    context = {
        "known": known,
        "view": product_view(known.product, request.member.garage, clock.now()),
        "arranges": refuse_arranging(request.member) is None,
    }
    return page(request, "builds/shop/product_page.html", context, menu="shop")


@once
def product_add(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    form = ProductForm(request.POST or None, garage=request.member.garage)
    return _keep(request, form) or page(request, "builds/shop/product_form.html", form=form, menu="shop")


@once
def product_edit(request: GarageRequest, slug: str) -> HttpResponse:
    known = _known(request, slug)
    require(refuse_arranging(request.member))
    form = ProductForm(request.POST or None, garage=request.member.garage, known=known.product)
    return _keep(request, form) or page(
        request, "builds/shop/product_form.html", {"known": known}, form=form, menu="shop"
    )


@require_POST
@once
def product_reset(request: GarageRequest, slug: str) -> HttpResponse:
    known = _known(request, slug)
    require(refuse_arranging(request.member))
    with refused_aloud(request):
        products.forget_own(request.member.garage, slug)
        said = "has its example figures again" if known.shipped else "is gone"
        messages.success(request, f"{known.product.name} {said}.")
        return see(reverse("product_list"))
    return back(request, reverse("product_page", args=[slug]))
