"""The address of the journal."""

from django.urls import URLPattern, path

from builds.journal import views

urlpatterns: list[URLPattern] = [path("journal/", views.journal_list, name="journal_list")]
