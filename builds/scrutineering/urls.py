"""Addresses of scrutineering lists, and of what comes after the first session and the event."""

from django.urls import URLPattern, path

from builds.scrutineering.views import checks, organisers, runs

urlpatterns: list[URLPattern] = [
    path("entries/<int:pk>/checks/", checks.check_list, name="check_list"),
    path("entries/<int:pk>/checks/make/", checks.check_make, name="check_make"),
    path("entries/<int:pk>/checks/many/", checks.check_many, name="check_many"),
    path("checks/<int:pk>/", checks.check_page, name="check_page"),
    path("checks/<int:pk>/tick/", checks.check_tick, name="check_tick"),
    path("checks/<int:pk>/undo/", checks.check_undo, name="check_undo"),
    path("checks/<int:pk>/fail/", checks.check_fail, name="check_fail"),
    path("checks/<int:pk>/leave-out/", checks.check_leave_out, name="check_leave_out"),
    path("cars/<int:pk>/has/", checks.check_has, name="check_has"),
    path("organisers/", organisers.organiser_list, name="organiser_list"),
    path("organisers/add/", organisers.organiser_add, name="organiser_add"),
    path("organisers/<int:pk>/", organisers.organiser_edit, name="organiser_edit"),
    path("organisers/<int:pk>/delete/", organisers.organiser_delete, name="organiser_delete"),
    path(
        "entries/<int:pk>/first-session/",
        runs.run_first_session,
        name="run_first_session",
    ),
    path("entries/<int:pk>/did-not-run/", runs.run_none, name="run_none"),
    path("entries/<int:pk>/not-run/", runs.run_not, name="run_not"),
    path("events/<int:pk>/strip-down/", runs.run_strip_down, name="run_strip_down"),
]
