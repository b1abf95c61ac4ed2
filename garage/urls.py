"""Every address of the garage; the work's own are in builds."""

from django.urls import include, path

from garage.views import stations

urlpatterns = [
    path("", include("builds.urls")),
    path("stations/", stations.station_list, name="station_list"),
    path("stations/add/", stations.station_add, name="station_add"),
    path("stations/<int:pk>/", stations.station_edit, name="station_edit"),
    path("stations/<int:pk>/delete/", stations.station_delete, name="station_delete"),
]
