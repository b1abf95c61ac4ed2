"""Addresses of pack lists."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
