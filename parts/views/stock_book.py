"""The shelf as a file for a spreadsheet."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from garage import clock
from garage.http import GarageRequest
from parts.pages.stock_book import book_columns, book_rows
from parts.sheets.stock_book import book_csv, book_xlsx

XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


@require_safe
def stock_book_csv(request: GarageRequest) -> HttpResponse:
    member = request.member
    data = book_csv(book_columns(member), book_rows(member))
    return _file(data, "text/csv; charset=utf-8", "csv")


@require_safe
def stock_book_xlsx(request: GarageRequest) -> HttpResponse:
    member = request.member
    data = book_xlsx(book_columns(member), book_rows(member))
    return _file(data, XLSX, "xlsx")


def _file(data: bytes, kind: str, end: str) -> HttpResponse:
    answer = HttpResponse(data, content_type=kind)
    answer["Content-Disposition"] = f'attachment; filename="shelf-{clock.now():%Y-%m-%d}.{end}"'
    return answer
