"""Addresses of the event's day without signal."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
