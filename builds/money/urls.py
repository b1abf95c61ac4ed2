"""Addresses of what it cost."""

from django.urls import URLPattern, path

from builds.money import views

urlpatterns: list[URLPattern] = [
    path("money/", views.money_page, name="money_page"),
    path("money/used/", views.money_used, name="money_used"),
    path("cars/<int:pk>/money/", views.vehicle_money, name="vehicle_money"),
    path("events/<int:pk>/money/", views.event_money, name="event_money"),
]
