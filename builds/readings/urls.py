"""Addresses of readings."""

from django.urls import URLPattern, path

from builds.readings.views import ages, readings, targets

urlpatterns: list[URLPattern] = [
    path("cars/<int:pk>/readings/", readings.reading_list, name="reading_list"),
    path("cars/<int:pk>/readings/required/", targets.required_edit, name="required_edit"),
    path("cars/<int:pk>/readings/limits/", targets.target_offers, name="target_offers"),
    path("cars/<int:pk>/readings/compare/", readings.reading_compare, name="reading_compare"),
    path("cars/<int:pk>/readings/own/", readings.reading_kind_add, name="reading_kind_add"),
    path("cars/<int:pk>/readings/many/", readings.reading_many, name="reading_many"),
    path("cars/<int:pk>/readings/<slug:key>/", readings.reading_page, name="reading_page"),
    path("cars/<int:pk>/readings/<slug:key>/add/", readings.reading_add, name="reading_add"),
    path("cars/<int:pk>/readings/<slug:key>/target/", targets.target_edit, name="target_edit"),
    path("readings/ages/", ages.reading_ages, name="reading_ages"),
    path("readings/<int:pk>/strike/", readings.reading_strike, name="reading_strike"),
]
