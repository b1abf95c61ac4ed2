"""Addresses of cars."""

from django.urls import URLPattern, path

from builds.cars import views

urlpatterns: list[URLPattern] = [
    path("cars/", views.vehicle_list, name="vehicle_list"),
    path("cars/add/", views.vehicle_add, name="vehicle_add"),
    path("cars/<int:pk>/", views.vehicle_page, name="vehicle_page"),
    path("cars/<int:pk>/edit/", views.vehicle_edit, name="vehicle_edit"),
    path("cars/<int:pk>/state/", views.vehicle_state, name="vehicle_state"),
    path("cars/<int:pk>/go/", views.vehicle_go, name="vehicle_go"),
]
