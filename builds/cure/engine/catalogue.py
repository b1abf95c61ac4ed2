"""The products that come with the program: examples, to be overruled by the tin's data sheet."""

import tomllib
from functools import cache
from pathlib import Path

from builds.cure.engine.product_dict import product_from_dict
from builds.cure.engine.products import Product

_FILE = Path(__file__).with_name("products.toml")


@cache
def shipped_products() -> dict[str, Product]:
    """Slug to product, in the order of the file; °C and hours. Figures invented, no source."""
    products = tomllib.loads(_FILE.read_text(encoding="utf-8"))
    return {slug: product_from_dict({"slug": slug, **product}) for slug, product in products.items()}
