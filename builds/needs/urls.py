"""Addresses of what jobs need."""

from django.urls import URLPattern, path

from builds.needs.views import needs

urlpatterns: list[URLPattern] = [
    path("jobs/<int:pk>/needs/add/", needs.need_add, name="need_add"),
    path("jobs/<int:pk>/needs/take/", needs.need_take, name="need_take"),
    path("needs/<int:pk>/", needs.need_edit, name="need_edit"),
    path("needs/<int:pk>/part/", needs.need_part, name="need_part"),
    path("needs/<int:pk>/got/", needs.need_got, name="need_got"),
    path("needs/<int:pk>/delete/", needs.need_delete, name="need_delete"),
]
