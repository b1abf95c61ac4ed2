"""Every address of the garage; the work's own are in builds."""

from django.urls import include, path

from garage.views import account, door, first_run, garage_settings, health, stations

handler500 = "garage.views.faults.server_error"

urlpatterns = [
    path("", include("builds.urls")),
    path("sign-in/", door.sign_in, name="sign_in"),
    path("sign-out/", door.sign_out, name="sign_out"),
    path("enter/<str:token>/", door.sign_in_link, name="sign_in_link"),
    path("account/", account.account_page, name="account_page"),
    path("account/sign-in/", account.account_sign_in, name="account_sign_in"),
    path("account/elsewhere/", account.account_elsewhere, name="account_elsewhere"),
    path("first-run/", first_run.first_run, name="first_run"),
    path("garage/", garage_settings.garage_settings, name="garage_settings"),
    path("health/", health.health, name="health"),
    path("stations/", stations.station_list, name="station_list"),
    path("stations/add/", stations.station_add, name="station_add"),
    path("stations/<int:pk>/", stations.station_edit, name="station_edit"),
    path("stations/<int:pk>/delete/", stations.station_delete, name="station_delete"),
]
