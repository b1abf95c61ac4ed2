"""Addresses of pack lists."""

from django.urls import URLPattern, path

from builds.views import packing

urlpatterns: list[URLPattern] = [
    path("events/<int:pk>/pack/", packing.pack_list, name="pack_list"),
    path("events/<int:pk>/pack/make/", packing.pack_make, name="pack_make"),
    path("events/<int:pk>/pack/add/", packing.pack_add, name="pack_add"),
    path("pack/<int:pk>/tick/", packing.pack_tick, name="pack_tick"),
    path("pack/<int:pk>/remove/", packing.pack_remove, name="pack_remove"),
]
