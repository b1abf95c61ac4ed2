"""The address that loads the demo garage."""

from django.urls import URLPattern, path

from builds.demo import views

urlpatterns: list[URLPattern] = [
    path("demo/", views.demo_load, name="demo_load"),
]
