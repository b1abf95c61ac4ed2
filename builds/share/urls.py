"""Addresses of shared pages."""

from django.urls import URLPattern, path

from builds.share.views import guests, links, shared

urlpatterns: list[URLPattern] = [
    path("links/", links.share_list, name="share_list"),
    path("share/add/", links.share_add, name="share_add"),
    path("share/<int:pk>/revoke/", links.share_revoke, name="share_revoke"),
    path("offers/<int:pk>/seen/", links.share_offer_seen, name="share_offer_seen"),
    path("shared/<str:token>/photos/<int:pk>.jpg", shared.share_photo, name="share_photo"),
    path("shared/<str:token>/have/<int:pk>/", shared.share_have, name="share_have"),
    path("shared/<str:token>/comment/", guests.share_comment, name="share_comment"),
    path("shared/<str:token>/tick/<int:pk>/", guests.share_tick, name="share_tick"),
    path("ticks/<int:pk>/refuse/", guests.share_tick_refuse, name="share_tick_refuse"),
    path("shared/<path:token>/", shared.share_page, name="share_page"),
]
