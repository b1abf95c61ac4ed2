"""Addresses of events and of the cars entered for them."""

from django.urls import URLPattern, path

from builds.events import views

urlpatterns: list[URLPattern] = [
    path("events/", views.event_list, name="event_list"),
    path("events/add/", views.event_add, name="event_add"),
    path("events/<int:pk>/", views.event_page, name="event_page"),
    path("events/<int:pk>/edit/", views.event_edit, name="event_edit"),
    path("events/<int:pk>/delete/", views.event_delete, name="event_delete"),
    path("events/<int:pk>/entries/add/", views.entry_add, name="entry_add"),
    path("entries/<int:pk>/", views.entry_edit, name="entry_edit"),
    path("entries/<int:pk>/delete/", views.entry_delete, name="entry_delete"),
]
