"""Addresses of jobs, what joins them and what stops them."""

from django.urls import URLPattern, path

from builds.jobs.views import comments, findings, hold_points, jobs, links, nights, pasted, skill_loans, steps

urlpatterns: list[URLPattern] = [
    path("cars/<int:pk>/jobs/add/", jobs.job_add, name="job_add"),
    path("cars/<int:pk>/jobs/paste/", pasted.job_paste, name="job_paste"),
    path("jobs/<int:pk>/", jobs.job_page, name="job_page"),
    path("jobs/<int:pk>/edit/", jobs.job_edit, name="job_edit"),
    path("jobs/<int:pk>/start/", steps.job_start, name="job_start"),
    path("jobs/<int:pk>/stop/", steps.job_stop, name="job_stop"),
    path("jobs/<int:pk>/hold/", steps.job_hold, name="job_hold"),
    path("jobs/<int:pk>/release/", steps.job_release, name="job_release"),
    path("jobs/<int:pk>/finish/", steps.job_finish, name="job_finish"),
    path("jobs/<int:pk>/sign/", steps.job_sign, name="job_sign"),
    path("jobs/<int:pk>/reopen/", steps.job_reopen, name="job_reopen"),
    path("jobs/<int:pk>/drop/", steps.job_drop, name="job_drop"),
    path("jobs/<int:pk>/whole/", steps.job_whole, name="job_whole"),
    path("jobs/<int:pk>/night/", nights.job_night, name="job_night"),
    path("jobs/<int:pk>/found/", findings.job_found, name="job_found"),
    path("cars/<int:pk>/found/", findings.job_seen, name="job_seen"),
    path("jobs/<int:pk>/links/add/", links.link_add, name="link_add"),
    path("links/<int:pk>/", links.link_edit, name="link_edit"),
    path("links/<int:pk>/cut/", links.link_cut, name="link_cut"),
    path("links/<int:pk>/delete/", links.link_delete, name="link_delete"),
    path("jobs/<int:pk>/stations/add/", links.station_hold_add, name="station_hold_add"),
    path("kept/<int:pk>/delete/", links.station_hold_delete, name="station_hold_delete"),
    path("kept/<int:pk>/free/", links.station_hold_free, name="station_hold_free"),
    path("jobs/<int:pk>/hold-points/add/", hold_points.hold_point_add, name="hold_point_add"),
    path("hold-points/<int:pk>/sign/", hold_points.hold_point_sign, name="hold_point_sign"),
    path("hold-points/<int:pk>/delete/", hold_points.hold_point_delete, name="hold_point_delete"),
    path("jobs/<int:pk>/comments/add/", comments.comment_add, name="comment_add"),
    path("comments/<int:pk>/delete/", comments.comment_delete, name="comment_delete"),
    path("jobs/<int:pk>/lend/", skill_loans.skill_loan_add, name="skill_loan_add"),
    path("lent/<int:pk>/delete/", skill_loans.skill_loan_delete, name="skill_loan_delete"),
]
