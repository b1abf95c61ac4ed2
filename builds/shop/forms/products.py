"""The form of a product: one line of times for each stage, as the data sheet gives them."""

import re
from decimal import Decimal
from fractions import Fraction
from typing import Any

from django import forms
from django.utils.text import slugify

from builds.cure.engine import CureRule, Product, ProductError, Stage, product_from_dict
from builds.cure.engine.sheet_line import CELSIUS, line_words, read_line
from builds.cure.facts.products import known_products
from builds.shop.forms.shop import degrees
from garage.engine.units import convert_difference, number_words, unit_for
from garage.forms.edits import EditForm
from garage.models import Garage

LABELS = {
    Stage.TOUCH: "Dry to the touch",
    Stage.RECOAT_FROM: "Next coat from",
    Stage.RECOAT_TO: "Next coat without sanding until",
    Stage.HANDLE: "Ready to handle",
    Stage.FULL: "Fully cured",
}
LIMITS = ["minimum_mc", "factor", "highest_mc", "dew_margin", "humidity"]
MOST_MARGIN = 20  # °C
MAKERS = ["maker_time_only", "chart_mc", "chart_humidity"]


class ProductForm(EditForm, forms.Form):
    """Cleans to `product`; what does not fit together is said at the field it is about."""

    product: Product

    name = forms.CharField(max_length=80)
    factor = forms.FloatField(
        label="With one temperature: times faster for 10 °C more",
        min_value=1,
        max_value=10,
        required=False,
        help_text="2 is the usual rule of thumb, and too hopeful in the cold",
    )
    dew_margin = forms.DecimalField(label="Metal above the dew point to put it on", min_value=0, required=False)
    humidity = forms.IntegerField(
        label="Air below this humidity to put it on", min_value=1, max_value=100, required=False
    )
    source = forms.CharField(
        label="From which data sheet",
        max_length=200,
        required=False,
        help_text="name, issue and date of the sheet in your hand",
    )
    note = forms.CharField(max_length=400, required=False, widget=forms.Textarea({"rows": 2}))
    maker_time_only = forms.BooleanField(
        label="Goes by the maker's time alone, as bonded glass does",
        required=False,
        help_text="It is then never computed: whoever links a job enters the time.",
    )
    chart_humidity = forms.IntegerField(
        label="Humidity that the maker's chart is for", min_value=1, max_value=100, required=False
    )

    def __init__(self, *args: Any, garage: Garage, known: Product | None = None, **kwargs: Any) -> None:
        self.garage, self.known = garage, known
        self.shown = unit_for("temperature", garage.units)
        if known:
            kwargs["initial"] = self._initial(known)
        super().__init__(*args, edits=known is not None, **kwargs)
        self.fields["minimum_mc"] = degrees(garage, "Does not cure below")
        self.fields["highest_mc"] = degrees(garage, "No faster above")
        self.fields["chart_mc"] = degrees(garage, "Temperature that the maker's chart is for")
        for name, unit in (("humidity", "%"), ("chart_humidity", "%")):
            self.fields[name].unit = unit
        self.fields["dew_margin"].unit = self.shown.symbol
        for stage, label in LABELS.items():
            self.fields[stage] = forms.CharField(label=label, max_length=200, required=False)
        self.fields[Stage.TOUCH].help_text = f"such as {self._example()}"

    @property
    def head(self) -> list[forms.BoundField]:
        return [self["name"]]

    @property
    def stages(self) -> list[forms.BoundField]:
        return [self[stage] for stage in LABELS]

    @property
    def limits(self) -> list[forms.BoundField]:
        return [self[name] for name in LIMITS]

    @property
    def makers(self) -> list[forms.BoundField]:
        return [self[name] for name in MAKERS]

    @property
    def tail(self) -> list[forms.BoundField]:
        return [self["source"], self["note"]]

    def _example(self) -> str:
        return "50: 16 h; 68: 8 h" if self.shown.symbol == "°F" else "10: 16 h; 20: 8 h"

    def _initial(self, known: Product) -> dict[str, Any]:
        rules = [rule for _, rule in known.stages if isinstance(rule, CureRule) and rule.factor > 1]
        margin = known.dew_margin
        return {
            "name": known.name,
            **{stage: line_words(figures, self.shown) for stage, figures in known.stages},
            "minimum_mc": _thousandths(known.minimum),
            "factor": rules[0].factor if rules else None,
            "highest_mc": _thousandths(rules[0].highest) if rules else None,
            "dew_margin": None
            if margin is None
            else number_words(convert_difference(Fraction(margin), CELSIUS, self.shown), 1),
            "humidity": known.humidity and round(known.humidity),
            "source": known.source,
            "note": known.note,
            "maker_time_only": known.maker_time_only,
            "chart_mc": _thousandths(known.chart_celsius),
            "chart_humidity": known.chart_humidity and round(known.chart_humidity),
        }

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"]
        for slug, other in known_products(self.garage).items():
            if other.product.name.lower() == name.lower() and slug != self._slug():
                raise forms.ValidationError(f"There is a product {name} already.")
        return name

    def clean_dew_margin(self) -> Decimal | None:
        margin: Decimal | None = self.cleaned_data["dew_margin"]
        most = convert_difference(Fraction(MOST_MARGIN), CELSIUS, self.shown)
        if margin is not None and Fraction(margin) > most:
            words = f"{number_words(most, 0)} {self.shown.symbol}"
            raise forms.ValidationError(f"It lies between 0 and {words}.")
        return margin

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if not self.errors:
            self._build(cleaned)
        return cleaned

    def _slug(self) -> str:
        return self.known.slug if self.known else ""

    def _build(self, cleaned: dict[str, Any]) -> None:
        """Stage after stage, so that a refusal belongs to the one that was added last."""
        if cleaned["maker_time_only"]:
            self._build_makers(cleaned)
            return
        data: dict[str, Any] = {**self._head(cleaned), "stages": {}}
        product, highest = None, _celsius(cleaned["highest_mc"])
        for stage in LABELS:
            if not cleaned[stage].strip():
                continue
            try:
                row = read_line(cleaned[stage], self.shown, cleaned["factor"], highest)
                data["stages"][stage] = row
                if "at" in row and cleaned["minimum_mc"] is None:
                    said = "With one temperature it needs this too: below it nothing cures."
                    self.add_error("minimum_mc", said)
                    return
                product = product_from_dict(data)
            except ProductError as wrong:
                self.add_error(stage, str(wrong))
                return
        if product is None:
            self.add_error(Stage.HANDLE, "Give the time of at least one stage.")
        else:
            self.product = product

    def _build_makers(self, cleaned: dict[str, Any]) -> None:
        stage = next((stage for stage in LABELS if cleaned[stage].strip()), None)
        if stage:
            self.add_error(stage, "What goes by the maker's time alone has no stages.")
            return
        chart = {
            "maker_time_only": True,
            "chart_celsius": _celsius(cleaned["chart_mc"]),
            "chart_humidity": cleaned["chart_humidity"],
        }
        try:
            self.product = product_from_dict({**self._head(cleaned), **chart})
        except ProductError as wrong:
            self.add_error("chart_mc", str(wrong))

    def _head(self, cleaned: dict[str, Any]) -> dict[str, Any]:
        margin = cleaned["dew_margin"]
        if margin is not None:
            margin = float(convert_difference(Fraction(margin), self.shown, CELSIUS))
        return {
            "slug": self._slug() or self._free_slug(cleaned["name"]),
            "name": cleaned["name"],
            "minimum": _celsius(cleaned["minimum_mc"]),
            "dew_margin": margin,
            "humidity": cleaned["humidity"],
            "source": cleaned["source"],
            "note": cleaned["note"],
        }

    def _free_slug(self, name: str) -> str:
        taken = {*known_products(self.garage), "add"}  # which is an address
        base = "-".join(re.findall(r"[a-z0-9]+", slugify(name)[:50])) or "product"
        if base not in taken:
            return base
        return next(f"{base}-{n}" for n in range(2, 10_000) if f"{base}-{n}" not in taken)


def _celsius(thousandths: int | None) -> float | None:
    return None if thousandths is None else thousandths / 1000


def _thousandths(celsius: float | None) -> int | None:
    return None if celsius is None else round(celsius * 1000)
