"""Addresses of printed views."""

from django.urls import URLPattern, path

from builds.paper import views

urlpatterns: list[URLPattern] = [
    path("entries/<int:pk>/sheet.pdf", views.entry_sheet, name="entry_sheet"),
    path("pull/sheet.pdf", views.pull_sheet, name="pull_sheet"),
    path("cards/sheet.pdf", views.card_sheet, name="card_sheet"),
    path("owed/sheet.pdf", views.owed_sheet, name="owed_sheet"),
    path("cars/<int:pk>/do-not-drive.pdf", views.vehicle_tag, name="vehicle_tag"),
    path("cars/<int:pk>/setup.pdf", views.setup_sheet, name="setup_sheet"),
    path("events/<int:pk>/pack.pdf", views.pack_sheet, name="pack_sheet"),
]
