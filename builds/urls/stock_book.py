"""Addresses of the shelf as a spreadsheet."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
