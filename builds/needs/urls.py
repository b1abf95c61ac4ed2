"""Addresses of what jobs need."""

from django.urls import URLPattern, path

from builds.needs import views

urlpatterns: list[URLPattern] = [
    path("jobs/<int:pk>/needs/add/", views.need_add, name="need_add"),
    path("jobs/<int:pk>/needs/take/", views.need_take, name="need_take"),
    path("needs/<int:pk>/", views.need_edit, name="need_edit"),
    path("needs/<int:pk>/part/", views.need_part, name="need_part"),
    path("needs/<int:pk>/got/", views.need_got, name="need_got"),
    path("needs/<int:pk>/delete/", views.need_delete, name="need_delete"),
]
