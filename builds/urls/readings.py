"""Addresses of readings."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
