"""Addresses of what the log of hours says."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
