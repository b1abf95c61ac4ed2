"""Addresses of shared pages."""

from django.urls import URLPattern, path

from builds.share import views

urlpatterns: list[URLPattern] = [
    path("links/", views.share_list, name="share_list"),
    path("share/add/", views.share_add, name="share_add"),
    path("share/<int:pk>/revoke/", views.share_revoke, name="share_revoke"),
    path("shared/<path:token>/", views.share_page, name="share_page"),
]
