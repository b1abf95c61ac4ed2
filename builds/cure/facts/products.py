"""Products as a garage has them: those that come with the program, and its own copies."""

from dataclasses import dataclass

from builds.cure.engine import Product, ProductError, product_from_dict, shipped_products
from builds.cure.models.product import OwnProduct
from garage.models import Garage
from garage.remembered import remembered


@dataclass(frozen=True)
class KnownProduct:
    """`own` when it is the garage's; `shipped` when one comes with the program too.

    `broken` says why the garage's own cannot be used; the shipped one stands in, if there is one.
    """

    product: Product
    own: bool = False
    shipped: bool = False
    broken: str = ""


def known_products(garage: Garage) -> dict[str, KnownProduct]:
    """By slug, in order of name; one query."""
    shipped = shipped_products()
    products = {slug: KnownProduct(product, shipped=True) for slug, product in shipped.items()}
    for kept in OwnProduct.objects.in_garage(garage):
        if (own := _own(kept, shipped)) is not None:
            products[kept.slug] = own
    return dict(sorted(products.items(), key=lambda item: item[1].product.name.lower()))


def _own(kept: OwnProduct, shipped: dict[str, Product]) -> KnownProduct | None:
    ships = kept.slug in shipped
    try:
        return KnownProduct(product_from_dict(kept.body), own=True, shipped=ships)
    except ProductError as wrong:
        return KnownProduct(shipped[kept.slug], shipped=True, broken=str(wrong)) if ships else None


def products_of(garage: Garage) -> dict[str, Product]:
    known = remembered(garage, "products", lambda: known_products(garage))
    return {slug: kept.product for slug, kept in known.items()}
