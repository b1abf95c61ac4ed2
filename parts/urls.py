"""Addresses of the shelf; where its parts meet the cars and the jobs is in builds."""

from django.urls import URLPattern, path

from parts.views import fits, interfaces, parts, places

urlpatterns: list[URLPattern] = [
    path("shelf/", parts.part_list, name="part_list"),
    path("parts/add/", parts.part_add, name="part_add"),
    path("parts/<int:pk>/edit/", parts.part_edit, name="part_edit"),
    path("parts/<int:pk>/fit/<str:kind>/add/", interfaces.interface_add, name="interface_add"),
    path("parts/<int:pk>/fit/delete/", interfaces.interface_delete, name="interface_delete"),
    path("shelf/fit/", fits.fit_search, name="fit_search"),
    path("c/<str:code>/", parts.code_page, name="code_page"),
    path("places/", places.place_list, name="place_list"),
    path("places/add/", places.place_add, name="place_add"),
    path("places/<int:pk>/", places.place_page, name="place_page"),
    path("places/<int:pk>/edit/", places.place_edit, name="place_edit"),
]
