"""Addresses of views."""

from django.urls import URLPattern, path

from builds.recipes import views

urlpatterns: list[URLPattern] = [
    path("recipes/", views.recipe_list, name="recipe_list"),
    path("recipes/several/", views.recipe_put_several, name="recipe_put_several"),
    path("recipes/<slug:key>/", views.recipe_page, name="recipe_page"),
    path("recipes/<slug:key>/put/", views.recipe_put, name="recipe_put"),
    path("recipes/<slug:key>/edit/", views.recipe_edit, name="recipe_edit"),
    path("recipes/<slug:key>/reset/", views.recipe_reset, name="recipe_reset"),
]
