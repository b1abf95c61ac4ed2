"""Addresses of views."""

from django.urls import URLPattern, path

from builds.photos import views

urlpatterns: list[URLPattern] = [
    path("photos/of/<slug:of>/<int:pk>/add/", views.photo_add, name="photo_add"),
    path("cars/<int:pk>/photos/", views.photo_story, name="photo_story"),
    path("photos/<int:pk>/", views.photo_page, name="photo_page"),
    path("photos/<int:pk>/edit/", views.photo_edit, name="photo_edit"),
    path("photos/<int:pk>/delete/", views.photo_delete, name="photo_delete"),
]
