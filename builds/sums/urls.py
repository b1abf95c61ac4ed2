"""Addresses of the bench sums."""

from django.urls import URLPattern, path

from builds.sums import views

urlpatterns: list[URLPattern] = [
    path("sums/", views.sum_list, name="sum_list"),
    path("sums/<slug:slug>/", views.sum_page, name="sum_page"),
]
