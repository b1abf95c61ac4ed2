"""Addresses of the shelf; where its parts meet the cars and the jobs is in builds."""

from django.urls import URLPattern, path

from parts.views import batches, fits, interfaces, labels, parts, places, stock_book

urlpatterns: list[URLPattern] = [
    path("shelf/", parts.part_list, name="part_list"),
    path("parts/<int:pk>/edit/", parts.part_edit, name="part_edit"),
    path("parts/<int:pk>/fit/<str:kind>/add/", interfaces.interface_add, name="interface_add"),
    path("parts/<int:pk>/fit/delete/", interfaces.interface_delete, name="interface_delete"),
    path("shelf/fit/", fits.fit_search, name="fit_search"),
    path("c/<str:code>/", parts.code_page, name="code_page"),
    path("places/", places.place_list, name="place_list"),
    path("places/add/", places.place_add, name="place_add"),
    path("places/<int:pk>/", places.place_page, name="place_page"),
    path("places/<int:pk>/edit/", places.place_edit, name="place_edit"),
    path("labels/", labels.label_list, name="label_list"),
    path("labels/sheet.pdf", labels.label_sheet, name="label_sheet"),
    path("shelf/book.csv", stock_book.stock_book_csv, name="stock_book_csv"),
    path("shelf/book.xlsx", stock_book.stock_book_xlsx, name="stock_book_xlsx"),
    path("shelf/sheets/add/", batches.batch_add, name="batch_add"),
    path("shelf/sheets/<int:pk>/", batches.batch_page, name="batch_page"),
    path("shelf/sheets/<int:pk>/columns/", batches.batch_columns, name="batch_columns"),
    path("shelf/sheets/<int:pk>/progress/", batches.batch_progress, name="batch_progress"),
    path("shelf/sheets/<int:pk>/check/", batches.batch_check, name="batch_check"),
    path("shelf/sheets/<int:pk>/write/", batches.batch_write, name="batch_write"),
    path("shelf/sheets/<int:pk>/leave/", batches.batch_leave, name="batch_leave"),
    path("shelf/sheets/rows/<int:pk>/", batches.batch_row, name="batch_row"),
    path("shelf/sheets/rows/<int:pk>/drop/", batches.batch_row_drop, name="batch_row_drop"),
]
