"""The choice of what cures: a product and what it must be ready for."""

from collections.abc import Mapping
from typing import Any

from builds.cure.engine import Product, Stage


def cure_value(cure: str, stage: str) -> str:
    return f"{cure}:{stage}" if stage else cure


def cure_choices(products: Mapping[str, Product]) -> list[Any]:
    """By product; nobody waits for a recoat window to close."""
    choices: list[Any] = [("", "nothing: the wait as it is typed")]
    for slug, product in products.items():
        if product.maker_time_only:
            rows = [(slug, "the maker's time, as it is typed")]
        else:
            rows = [(cure_value(slug, stage), stage.words) for stage, _ in product.stages if stage != Stage.RECOAT_TO]
        choices.append((product.name, rows))
    return choices
