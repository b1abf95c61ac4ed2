"""Addresses of what it would take, and of what-if trials."""

from django.urls import URLPattern, path

from builds.remedies.views import remedies, trials

urlpatterns: list[URLPattern] = [
    path("entries/<int:pk>/remedies/", remedies.remedy_list, name="remedy_list"),
    path("entries/<int:pk>/remedies/more/", remedies.remedy_more, name="remedy_more"),
    path("entries/<int:pk>/remedies/odds/", remedies.remedy_odds, name="remedy_odds"),
    path("entries/<int:pk>/remedies/apply/", remedies.remedy_apply, name="remedy_apply"),
    path("plan/what-if/", trials.trial_add, name="trial_add"),
    path("plan/what-if/<int:pk>/", trials.trial_page, name="trial_page"),
    path("plan/what-if/<int:pk>/keep/", trials.trial_keep, name="trial_keep"),
    path("plan/what-if/<int:pk>/drop/", trials.trial_drop, name="trial_drop"),
]
