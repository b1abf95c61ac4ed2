"""Addresses of labels."""

from django.urls import URLPattern, path

from parts.views import labels

urlpatterns: list[URLPattern] = [
    path("labels/", labels.label_list, name="label_list"),
    path("labels/sheet.pdf", labels.label_sheet, name="label_sheet"),
]
