"""Addresses of printed sheets."""

from django.urls import URLPattern, path

from builds.views import sheets

urlpatterns: list[URLPattern] = [
    path("pull/sheet.pdf", sheets.pull_sheet, name="pull_sheet"),
    path("cards/sheet.pdf", sheets.card_sheet, name="card_sheet"),
    path("owed/sheet.pdf", sheets.owed_sheet, name="owed_sheet"),
    path("cars/<int:pk>/do-not-drive.pdf", sheets.vehicle_tag, name="vehicle_tag"),
    path("cars/<int:pk>/setup.pdf", sheets.setup_sheet, name="setup_sheet"),
    path("events/<int:pk>/pack.pdf", sheets.pack_sheet, name="pack_sheet"),
]
