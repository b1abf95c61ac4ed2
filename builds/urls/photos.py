"""Addresses of photos."""

from django.urls import URLPattern, path

from builds.views import photos

urlpatterns: list[URLPattern] = [
    path("photos/of/<slug:of>/<int:pk>/add/", photos.photo_add, name="photo_add"),
    path("photos/<int:pk>/", photos.photo_page, name="photo_page"),
    path("photos/<int:pk>/edit/", photos.photo_edit, name="photo_edit"),
    path("photos/<int:pk>/delete/", photos.photo_delete, name="photo_delete"),
]
