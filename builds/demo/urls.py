"""The addresses that load the demo garage, and leave it."""

from django.urls import URLPattern, path

from builds.demo import views

urlpatterns: list[URLPattern] = [
    path("demo/", views.demo_load, name="demo_load"),
    path("demo/leave/", views.demo_leave, name="demo_leave"),
]
