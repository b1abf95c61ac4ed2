"""Addresses of the event's day without signal."""

from django.urls import URLPattern, path

from builds.paddock import views

urlpatterns: list[URLPattern] = [
    path("manifest.webmanifest", views.paddock_manifest, name="paddock_manifest"),
    path("paddock/", views.paddock_list, name="paddock_list"),
    path("paddock/worker.js", views.paddock_worker, name="paddock_worker"),
    path("paddock/<int:pk>/", views.paddock_page, name="paddock_page"),
    path("paddock/<int:pk>/now/", views.paddock_state, name="paddock_state"),
    path("paddock/<int:pk>/write/", views.paddock_write, name="paddock_write"),
    path("paddock/<int:pk>/<slug:item>/", views.paddock_item, name="paddock_item"),
]
