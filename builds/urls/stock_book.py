"""Addresses of the shelf as a spreadsheet."""

from django.urls import URLPattern, path

from parts.views import batches, stock_book

urlpatterns: list[URLPattern] = [
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
