"""Addresses of the event's day without signal."""

from django.urls import URLPattern, path

from builds.views import paddock

urlpatterns: list[URLPattern] = [
    path("manifest.webmanifest", paddock.paddock_manifest, name="paddock_manifest"),
    path("paddock/", paddock.paddock_list, name="paddock_list"),
    path("paddock/worker.js", paddock.paddock_worker, name="paddock_worker"),
    path("paddock/<int:pk>/", paddock.paddock_page, name="paddock_page"),
    path("paddock/<int:pk>/now/", paddock.paddock_state, name="paddock_state"),
    path("paddock/<int:pk>/write/", paddock.paddock_write, name="paddock_write"),
    path("paddock/<int:pk>/<slug:item>/", paddock.paddock_item, name="paddock_item"),
]
