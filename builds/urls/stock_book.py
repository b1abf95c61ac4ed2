"""Addresses of the shelf as a spreadsheet."""

from django.urls import URLPattern, path

from parts.views import stock_book

urlpatterns: list[URLPattern] = [
    path("shelf/book.csv", stock_book.stock_book_csv, name="stock_book_csv"),
    path("shelf/book.xlsx", stock_book.stock_book_xlsx, name="stock_book_xlsx"),
]
