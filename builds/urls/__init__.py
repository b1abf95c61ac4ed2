"""Addresses of the work, room by room."""

from django.urls import URLPattern

from builds.urls import (
    fit,
    gear,
    joints,
    labels,
    money,
    packing,
    paddock,
    papers,
    photos,
    readings,
    scrutineering,
    stock_book,
    time_log,
    work,
)

urlpatterns: list[URLPattern] = [
    *work.urlpatterns,
    *fit.urlpatterns,
    *labels.urlpatterns,
    *stock_book.urlpatterns,
    *money.urlpatterns,
    *photos.urlpatterns,
    *readings.urlpatterns,
    *gear.urlpatterns,
    *scrutineering.urlpatterns,
    *packing.urlpatterns,
    *joints.urlpatterns,
    *papers.urlpatterns,
    *paddock.urlpatterns,
    *time_log.urlpatterns,
]
