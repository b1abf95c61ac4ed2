"""Addresses of events and of the cars entered for them."""

from django.urls import URLPattern, path

from builds.events.views import entries, events, nights

urlpatterns: list[URLPattern] = [
    path("events/", events.event_list, name="event_list"),
    path("events/add/", events.event_add, name="event_add"),
    path("events/<int:pk>/", events.event_page, name="event_page"),
    path("events/<int:pk>/edit/", events.event_edit, name="event_edit"),
    path("events/<int:pk>/delete/", events.event_delete, name="event_delete"),
    path("events/<int:pk>/entries/add/", entries.entry_add, name="entry_add"),
    path("events/<int:pk>/nights/add/", nights.night_add, name="night_add"),
    path("nights/<int:pk>/", nights.night_edit, name="night_edit"),
    path("nights/<int:pk>/delete/", nights.night_delete, name="night_delete"),
    path("entries/<int:pk>/", entries.entry_edit, name="entry_edit"),
    path("entries/<int:pk>/delete/", entries.entry_delete, name="entry_delete"),
]
