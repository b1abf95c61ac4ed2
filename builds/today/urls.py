"""Addresses of tonight's work and of what is to be pulled for it."""

from django.urls import URLPattern, path

from builds.today.views import pulls as wants
from builds.today.views import today

urlpatterns: list[URLPattern] = [
    path("", today.today, name="today"),
    path("wants/", wants.want_list, name="want_list"),
    path("pull/", wants.pull_list, name="pull_list"),
]
