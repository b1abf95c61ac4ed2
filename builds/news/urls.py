"""Addresses of the news."""

from django.urls import URLPattern, path

from builds.news import views

urlpatterns: list[URLPattern] = [
    path("news/", views.news_edit, name="news_edit"),
    path("news/stop/<str:token>/", views.news_stop, name="news_stop"),
]
