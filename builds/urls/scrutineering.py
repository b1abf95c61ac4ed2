"""Addresses of scrutineering lists."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
