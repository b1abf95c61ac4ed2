"""Addresses of pack lists."""

from django.urls import URLPattern, path

from builds.packing import views

urlpatterns: list[URLPattern] = [
    path("events/<int:pk>/pack/", views.pack_list, name="pack_list"),
    path("events/<int:pk>/pack/make/", views.pack_make, name="pack_make"),
    path("events/<int:pk>/pack/add/", views.pack_add, name="pack_add"),
    path("pack/<int:pk>/tick/", views.pack_tick, name="pack_tick"),
    path("pack/<int:pk>/remove/", views.pack_remove, name="pack_remove"),
    path("events/<int:pk>/pack.pdf", views.pack_sheet, name="pack_sheet"),
]
