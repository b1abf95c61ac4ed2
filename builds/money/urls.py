"""Addresses of what it cost."""

from django.urls import URLPattern, path

from builds.money import views

urlpatterns: list[URLPattern] = [
    path("money/", views.money_page, name="money_page"),
    path("money/used/", views.money_used, name="money_used"),
    path("cars/<int:pk>/money/", views.money_vehicle, name="money_vehicle"),
    path("events/<int:pk>/money/", views.money_event, name="money_event"),
]
