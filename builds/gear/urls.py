"""Addresses of dated views."""

from django.urls import URLPattern, path

from builds.gear import views

urlpatterns: list[URLPattern] = [
    path("gear/", views.gear_list, name="gear_list"),
    path("gear/add/", views.gear_add, name="gear_add"),
    path("gear/<int:pk>/", views.gear_page, name="gear_page"),
    path("gear/<int:pk>/edit/", views.gear_edit, name="gear_edit"),
    path("gear/<int:pk>/retire/", views.gear_retire, name="gear_retire"),
    path("gear/<int:pk>/struck/", views.gear_strike, name="gear_strike"),
    path("gear/<int:pk>/pass/", views.gear_pass, name="gear_pass"),
    path("gear/<int:pk>/life/", views.gear_life, name="gear_life"),
    path("gear/<int:pk>/renew/", views.gear_renew, name="gear_renew"),
    path("events/<int:pk>/gear/", views.gear_rules, name="gear_rules"),
    path("cars/<int:pk>/gear/", views.gear_needed, name="gear_needed"),
]
