"""Addresses of visits."""

from django.urls import URLPattern, path

from builds.visits import views

urlpatterns: list[URLPattern] = [
    path("visits/add/", views.visit_link_add, name="visit_link_add"),
    path("visits/<int:pk>/revoke/", views.visit_link_revoke, name="visit_link_revoke"),
    path("visits/<int:pk>/take/", views.visit_take, name="visit_take"),
    path("visits/<int:pk>/refuse/", views.visit_refuse, name="visit_refuse"),
    path("visit/<path:token>/", views.visit_page, name="visit_page"),
]
