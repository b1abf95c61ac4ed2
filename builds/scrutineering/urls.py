"""Addresses of scrutineering lists, and of what comes after the first session and the event."""

from django.urls import URLPattern, path

from builds.scrutineering.views import checks, entry_runs, organisers

urlpatterns: list[URLPattern] = [
    path("entries/<int:pk>/checks/", checks.check_list, name="check_list"),
    path("entries/<int:pk>/checks/make/", checks.check_make, name="check_make"),
    path("checks/<int:pk>/", checks.check_page, name="check_page"),
    path("checks/<int:pk>/tick/", checks.check_tick, name="check_tick"),
    path("checks/<int:pk>/undo/", checks.check_undo, name="check_undo"),
    path("checks/<int:pk>/fail/", checks.check_fail, name="check_fail"),
    path("checks/<int:pk>/leave-out/", checks.check_leave_out, name="check_leave_out"),
    path("cars/<int:pk>/has/", checks.vehicle_has, name="vehicle_has"),
    path("organisers/", organisers.organiser_list, name="organiser_list"),
    path("organisers/add/", organisers.organiser_add, name="organiser_add"),
    path("organisers/<int:pk>/", organisers.organiser_edit, name="organiser_edit"),
    path("organisers/<int:pk>/delete/", organisers.organiser_delete, name="organiser_delete"),
    path(
        "entries/<int:pk>/first-session/",
        entry_runs.entry_first_session,
        name="entry_first_session",
    ),
    path("entries/<int:pk>/not-run/", entry_runs.entry_not_run, name="entry_not_run"),
    path("events/<int:pk>/strip-down/", entry_runs.event_strip_down, name="event_strip_down"),
]
