"""Which news somebody wants by mail."""

from typing import Any

from django import forms

from builds.news.models import NewsWish
from garage.forms.edits import EditForm


class NewsForm(EditForm, forms.Form):
    """Nothing is ticked until he asks."""

    evenings = forms.BooleanField(label="My evening moved", required=False)
    points = forms.BooleanField(label="A point waits for my look", required=False)
    parts = forms.BooleanField(label="A part came", required=False)
    cars = forms.BooleanField(label="A car became fit or unfit to run", required=False)

    def __init__(self, *args: Any, wish: NewsWish | None, **more: Any) -> None:
        stands = {name: bool(wish) and getattr(wish, name) for name in self.base_fields}
        super().__init__(*args, initial=stands, **more)
