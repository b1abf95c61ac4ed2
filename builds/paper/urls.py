"""Addresses of printed sheets."""

from django.urls import URLPattern, path

from builds.paper import views

urlpatterns: list[URLPattern] = [
    path("entries/<int:pk>/sheet.pdf", views.checklist_sheet, name="checklist_sheet"),
    path("cars/<int:pk>/do-not-drive.pdf", views.drive_tag_sheet, name="drive_tag_sheet"),
    path("tag/<path:code>/", views.drive_tag_page, name="drive_tag_page"),
    path("cars/<int:pk>/photos.pdf", views.story_sheet, name="story_sheet"),
    path("cars/<int:pk>/setup.pdf", views.setup_sheet, name="setup_sheet"),
    path("plan/sheet.pdf", views.wall_sheet, name="wall_sheet"),
]
