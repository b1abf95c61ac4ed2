"""Addresses of dated gear."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
