"""Addresses of parts where they meet cars and jobs."""

from django.urls import URLPattern, path

from builds.shelf.views import moves, owed, parts, wants

urlpatterns: list[URLPattern] = [
    path("parts/add/", parts.part_add, name="part_add"),
    path("parts/<int:pk>/", parts.part_page, name="part_page"),
    path("parts/<int:pk>/count/", moves.part_count, name="part_count"),
    path("parts/<int:pk>/move/<slug:verb>/", moves.part_move, name="part_move"),
    path("parts/<int:pk>/want/", wants.want_add, name="want_add"),
    path("wants/", wants.want_list, name="want_list"),
    path("wants/sheet.pdf", wants.want_sheet, name="want_sheet"),
    path("owed/", owed.owed_list, name="owed_list"),
    path("owed/sheet.pdf", owed.owed_sheet, name="owed_sheet"),
    path("moves/<int:pk>/undo/", moves.move_undo, name="move_undo"),
]
