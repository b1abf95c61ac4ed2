"""Addresses of what it cost."""

from django.urls import URLPattern, path

from builds.views import money

urlpatterns: list[URLPattern] = [
    path("money/", money.money_page, name="money_page"),
    path("money/used/", money.money_used, name="money_used"),
    path("cars/<int:pk>/money/", money.vehicle_money, name="vehicle_money"),
    path("events/<int:pk>/money/", money.event_money, name="event_money"),
]
