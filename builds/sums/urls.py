"""Addresses of the bench sums."""

from django.urls import URLPattern, path

from builds.sums import views

urlpatterns: list[URLPattern] = [
    path("sums/", views.sum_list, name="sum_list"),
    path("sums/<slug:slug>/", views.sum_page, name="sum_page"),
    path("sums/<slug:slug>/keep/<int:pk>/", views.sum_keep, name="sum_keep"),
    path("cars/<int:pk>/sums/", views.sum_kept, name="sum_kept"),
    path("sums/kept/<int:pk>/delete/", views.sum_delete, name="sum_delete"),
]
