"""Every address of the garage; the work's own are in builds."""

from django.urls import include, path

from garage.views import (
    account,
    backups,
    devices,
    door,
    first_run,
    garage_settings,
    health,
    hours,
    open_files,
    people,
    photos,
    seen,
    stations,
)

handler400 = "garage.views.faults.bad_request"
handler500 = "garage.views.faults.server_error"

urlpatterns = [
    path("", include("builds.urls")),
    path("", include("parts.urls")),
    path("sign-in/", door.sign_in, name="sign_in"),
    path("sign-out/", door.sign_out, name="sign_out"),
    path("enter/<str:token>/", door.sign_in_link, name="sign_in_link"),
    path("account/", account.account_page, name="account_page"),
    path("account/sign-in/", account.account_sign_in, name="account_sign_in"),
    path("account/elsewhere/", account.account_elsewhere, name="account_elsewhere"),
    path("devices/<int:pk>/end/", devices.device_end, name="device_end"),
    path("first-run/", first_run.first_run, name="first_run"),
    path("garage/", garage_settings.garage_settings, name="garage_settings"),
    path("garage/backups/", backups.backup_list, name="backup_list"),
    path("garage/backups/add/", backups.backup_add, name="backup_add"),
    path("garage/export/", open_files.garage_export, name="garage_export"),
    path("garage/export/file/", open_files.garage_export_file, name="garage_export_file"),
    path("garage/seen/", seen.garage_seen, name="garage_seen"),
    path("garages/<int:pk>/choose/", garage_settings.garage_choose, name="garage_choose"),
    path("health/", health.health, name="health"),
    path("photos/<int:pk>/<slug:size>.jpg", photos.photo_file, name="photo_file"),
    path("people/", people.person_list, name="person_list"),
    path("people/add/", people.person_add, name="person_add"),
    path("people/<int:pk>/", people.person_page, name="person_page"),
    path("people/<int:pk>/edit/", people.person_edit, name="person_edit"),
    path("people/<int:pk>/delete/", people.person_delete, name="person_delete"),
    path("people/<int:pk>/data/", open_files.person_data, name="person_data"),
    path("people/<int:pk>/erase/", open_files.person_erase, name="person_erase"),
    path("people/<int:pk>/link/", people.person_link, name="person_link"),
    path("people/<int:pk>/link/revoke/", people.person_link_revoke, name="person_link_revoke"),
    path("people/<int:pk>/sign-out/", people.person_sign_out, name="person_sign_out"),
    path("skills/add/", people.skill_add, name="skill_add"),
    path("people/<int:pk>/hours/", hours.hours_edit, name="hours_edit"),
    path("people/<int:pk>/tonight/", hours.hours_tonight, name="hours_tonight"),
    path("people/<int:pk>/days/add/", hours.day_hours_add, name="day_hours_add"),
    path("days/<int:pk>/delete/", hours.day_hours_delete, name="day_hours_delete"),
    path("stations/", stations.station_list, name="station_list"),
    path("stations/add/", stations.station_add, name="station_add"),
    path("stations/<int:pk>/", stations.station_edit, name="station_edit"),
    path("stations/<int:pk>/delete/", stations.station_delete, name="station_delete"),
]
