"""Addresses of what fits what."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
