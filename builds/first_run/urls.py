"""The address of the first page."""

from django.urls import URLPattern, path

from builds.first_run import views

urlpatterns: list[URLPattern] = [path("first-run/", views.first_run, name="first_run")]
