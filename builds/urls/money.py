"""Addresses of what it cost."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
