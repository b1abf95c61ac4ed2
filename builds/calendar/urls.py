"""Addresses of calendars."""

from django.urls import URLPattern, path

from builds.calendar import views

urlpatterns: list[URLPattern] = [
    path("calendar/", views.calendar_page, name="calendar_page"),
    path("calendar/add/", views.calendar_add, name="calendar_add"),
    path("calendar/<int:pk>/revoke/", views.calendar_revoke, name="calendar_revoke"),
    path("feed/<path:token>/garage.ics", views.calendar_feed, name="calendar_feed"),
]
