"""Addresses of what the log of hours says."""

from django.urls import URLPattern, path

from builds.views import log_says

urlpatterns: list[URLPattern] = [
    path("plan/log/", log_says.log_page, name="log_page"),
    path("plan/log/count/", log_says.log_count, name="log_count"),
]
