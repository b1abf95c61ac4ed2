"""Addresses of the work."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
