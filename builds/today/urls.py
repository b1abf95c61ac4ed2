"""Addresses of tonight's work and of what is to be pulled for it."""

from django.urls import URLPattern, path

from builds.today.views import cards, pulls, today

urlpatterns: list[URLPattern] = [
    path("", today.today, name="today"),
    path("pull/", pulls.pull_list, name="pull_list"),
    path("pull/sheet.pdf", pulls.pull_sheet, name="pull_sheet"),
    path("cards/sheet.pdf", cards.card_sheet, name="card_sheet"),
]
