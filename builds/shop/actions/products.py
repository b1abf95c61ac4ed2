"""A garage's own products, and back to those that come with the program."""

from datetime import datetime

from django.db import transaction

from builds.cure.engine import Product, product_to_dict, shipped_products
from builds.cure.models.product import OwnProduct
from builds.work.models.link import Link
from garage.actions.refused import Refused
from garage.models import Garage


@transaction.atomic
def keep_own(garage: Garage, product: Product, *, at: datetime) -> OwnProduct:
    """The garage's own figures; a stage that links wait for cannot go."""
    _refuse_without(garage, product.slug, product)
    kept, _ = OwnProduct.objects.update_or_create(
        garage=garage,
        slug=product.slug,
        defaults={
            "name": product.name,
            "body": product_to_dict(product),
            "changed_at": at,
        },
    )
    return kept


@transaction.atomic
def forget_own(garage: Garage, slug: str) -> None:
    """Back to the product that comes with the program, or to none."""
    _refuse_without(garage, slug, shipped_products().get(slug))
    OwnProduct.objects.in_garage(garage).called(slug).delete()


def _refuse_without(garage: Garage, slug: str, product: Product | None) -> None:
    """Links to open jobs that wait for a stage which the product would not have any more."""
    for link in Link.objects.in_garage(garage).binding().curing(slug).select_related("after"):
        if product is None or not product.has(link.cure_stage):
            raise Refused(f"“{link.after}” waits for it: change that link first.")
