"""Addresses of what the log of hours says, and of skills lent."""

from django.urls import URLPattern, path

from builds.views import log_says, skill_loans

urlpatterns: list[URLPattern] = [
    path("plan/log/", log_says.log_page, name="log_page"),
    path("plan/log/count/", log_says.log_count, name="log_count"),
    path("jobs/<int:pk>/lend/", skill_loans.skill_loan_add, name="skill_loan_add"),
    path("lent/<int:pk>/delete/", skill_loans.skill_loan_delete, name="skill_loan_delete"),
]
