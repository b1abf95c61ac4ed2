"""Addresses of joints and torque marks."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
