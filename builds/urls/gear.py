"""Addresses of dated gear."""

from django.urls import URLPattern, path

from builds.views import gear

urlpatterns: list[URLPattern] = [
    path("gear/", gear.gear_list, name="gear_list"),
    path("gear/add/", gear.gear_add, name="gear_add"),
    path("gear/<int:pk>/", gear.gear_page, name="gear_page"),
    path("gear/<int:pk>/edit/", gear.gear_edit, name="gear_edit"),
    path("gear/<int:pk>/retire/", gear.gear_retire, name="gear_retire"),
    path("gear/<int:pk>/struck/", gear.gear_strike, name="gear_strike"),
    path("gear/<int:pk>/pass/", gear.gear_pass, name="gear_pass"),
    path("events/<int:pk>/gear/", gear.gear_rules, name="gear_rules"),
    path("cars/<int:pk>/gear/", gear.gear_needed, name="gear_needed"),
]
