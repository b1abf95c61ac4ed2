"""Addresses of printed sheets."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
