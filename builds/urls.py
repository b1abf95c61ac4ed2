"""Addresses of the work, room by room."""

from django.urls import URLPattern, include, path
from django.urls.resolvers import URLResolver

ROOMS = (
    "first_run",
    "today",
    "cars",
    "jobs",
    "sums",
    "find",
    "events",
    "share",
    "calendar",
    "visits",
    "journal",
    "news",
    "plan",
    "remedies",
    "recipes",
    "needs",
    "shelf",
    "shop",
    "money",
    "photos",
    "readings",
    "joints",
    "gear",
    "scrutineering",
    "packing",
    "paddock",
    "paper",
    "demo",
)
urlpatterns: list[URLPattern | URLResolver] = [path("", include(f"builds.{room}.urls")) for room in ROOMS]
