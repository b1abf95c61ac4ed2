"""The address of the box that finds things."""

from django.urls import URLPattern, path

from builds.find import views

urlpatterns: list[URLPattern] = [path("find/", views.find_page, name="find_page")]
