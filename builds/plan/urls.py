"""Addresses of the plan, its odds and its log."""

from django.urls import URLPattern, path

from builds.plan.views import log_says, odds, plan, searches

urlpatterns: list[URLPattern] = [
    path("plan/", plan.plan_page, name="plan_page"),
    path("plan/odds/", odds.plan_odds, name="plan_odds"),
    path("plan/search/", plan.plan_search, name="plan_search"),
    path("plan/searches/<int:pk>/", searches.plan_progress, name="plan_progress"),
    path("plan/searches/<int:pk>/stop/", searches.plan_stop, name="plan_stop"),
    path("plan/log/", log_says.log_page, name="log_page"),
    path("plan/log/count/", log_says.log_count, name="log_count"),
]
