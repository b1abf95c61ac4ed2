"""A product as plain data, for files and forms, and back with a refusal for what does not fit."""

from collections.abc import Mapping
from typing import Any

from builds.cure.engine.figures import CureRule, CureTable, Figures, ProductError
from builds.cure.engine.products import Product, Stage

_NUMBERS = ("minimum", "dew_margin", "humidity", "chart_celsius", "chart_humidity")
_TEXTS = ("source", "note")
_KEYS = {"slug", "name", "stages", "maker_time_only", *_NUMBERS, *_TEXTS}
_CLOCK_CELSIUS = 20.0  # a plain clock goes at every temperature alike; any will do


def product_from_dict(data: Mapping[str, Any]) -> Product:
    """A product from plain data; ProductError, one sentence, for anything missing or wrong.

    Keys: slug, name, stages, and optionally minimum (°C), dew_margin (°C), humidity (%),
    maker_time_only, chart_celsius, chart_humidity, source, note. `stages` maps a stage to a table
    {celsius: […], hours: […]}, a rule {at: °C, hours, factor, highest: °C} or a clock {hours}.
    """
    _no_others(data, _KEYS, "A product")
    stages = data.get("stages", {})
    if not isinstance(stages, Mapping):
        raise ProductError("The stages of a product are a list of names with their times.")
    unknown = [name for name in stages if name not in set(Stage)]
    if unknown:
        raise ProductError(f"“{unknown[0]}” is no stage; the stages are {', '.join(Stage)}.")
    maker_time_only = data.get("maker_time_only", False)
    if not isinstance(maker_time_only, bool):
        raise ProductError("Whether a product goes by the maker's time is either true or false.")
    return Product(
        slug=_text(data, "slug"),
        name=_text(data, "name"),
        stages=tuple((stage, _figures(stage, stages[stage])) for stage in Stage if stage in stages),
        maker_time_only=maker_time_only,
        minimum=_optional(data, "minimum"),
        dew_margin=_optional(data, "dew_margin"),
        humidity=_optional(data, "humidity"),
        chart_celsius=_optional(data, "chart_celsius"),
        chart_humidity=_optional(data, "chart_humidity"),
        source=_text(data, "source") if "source" in data else "",
        note=_text(data, "note") if "note" in data else "",
    )


def product_to_dict(product: Product) -> dict[str, Any]:
    """Plain data, fit for JSON and TOML; `product_from_dict` makes the same product of it."""
    data: dict[str, Any] = {"slug": product.slug, "name": product.name}
    data |= {key: value for key in _NUMBERS if (value := getattr(product, key)) is not None}
    data |= {key: value for key in _TEXTS if (value := getattr(product, key))}
    if product.maker_time_only:
        data["maker_time_only"] = True
    if product.stages:
        data["stages"] = {str(stage): _plain(figures) for stage, figures in product.stages}
    return data


def _figures(stage: Stage, data: Any) -> Figures:
    what = f"The stage “{stage}”"
    if not isinstance(data, Mapping):
        raise ProductError(f"{what} needs a table, or a time and a factor.")
    if "celsius" in data:
        _no_others(data, {"celsius", "hours"}, what)
        return CureTable(_numbers(data, "celsius", what), _numbers(data, "hours", what))
    _no_others(data, {"at", "hours", "factor", "highest"}, what)
    if "hours" not in data:
        raise ProductError(f"{what} has no hours.")
    hours = _number(data["hours"], "hours")
    if "at" not in data:
        _no_others(data, {"hours"}, f"{what}, which names no temperature,")
        return CureRule(_CLOCK_CELSIUS, hours, 1.0)
    if "factor" not in data:
        raise ProductError(f"{what} needs the factor by which 10 °C more makes it faster.")
    factor = _number(data["factor"], "factor")
    return CureRule(_number(data["at"], "at"), hours, factor, _optional(data, "highest"))


def _plain(figures: Figures) -> dict[str, Any]:
    if isinstance(figures, CureTable):
        return {"celsius": list(figures.celsius), "hours": list(figures.hours)}
    if figures == CureRule(_CLOCK_CELSIUS, figures.hours, 1.0):
        return {"hours": figures.hours}
    plain = {"at": figures.celsius, "hours": figures.hours, "factor": figures.factor}
    return plain if figures.highest is None else {**plain, "highest": figures.highest}


def _no_others(data: Mapping[str, Any], known: set[str], what: str) -> None:
    others = sorted(str(key) for key in data if key not in known)
    if others:
        raise ProductError(f"{what} has no “{others[0]}”.")


def _text(data: Mapping[str, Any], key: str) -> str:
    value = data.get(key)
    if not isinstance(value, str):
        raise ProductError(f"A product needs its {key} in words.")
    return value


def _number(value: Any, what: str) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise ProductError(f"“{value}” is no number for {what}.")
    try:
        return float(value)
    except OverflowError:
        raise ProductError(f"The number for {what} is far too large.") from None


def _optional(data: Mapping[str, Any], key: str) -> float | None:
    return None if data.get(key) is None else _number(data[key], key)


def _numbers(data: Mapping[str, Any], key: str, what: str) -> tuple[float, ...]:
    values = data.get(key)
    if not isinstance(values, (list, tuple)):
        raise ProductError(f"{what} needs a list of {key}.")
    return tuple(_number(value, key) for value in values)
