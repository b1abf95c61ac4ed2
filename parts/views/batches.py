"""A sheet brought to the shelf: the file, its columns, every row's verdict, all or nothing."""

from typing import Any

from django.http import HttpResponse
from django.template.loader import render_to_string
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from garage import clock
from garage.access import refuse_arranging
from garage.actions.refused import Refused
from garage.http import GarageRequest, editable, once, page, require, see
from garage.refusals import refused_aloud, refused_at, say_refused
from garage.uploads import MB, takes_files
from parts.actions import batch_rows, batches
from parts.facts.batch import headings_said
from parts.forms.batches import ColumnsForm, RowForm, SheetForm
from parts.models import Batch, BatchRow
from parts.pages.batch import batch_view, row_line


def _now() -> Any:
    return clock.now()


def _page_of(pk: int) -> str:
    return reverse("batch_page", args=[pk])


# Somewhat more than a sheet may have, so that the form itself can say what is the most.
@takes_files(per_file=12 * MB, most=13 * MB)
def batch_add(request: GarageRequest) -> HttpResponse:
    require(refuse_arranging(request.member))
    form = SheetForm(request.POST or None, request.FILES or None)
    form.is_valid()  # reads the file: a large one takes seconds, which no transaction should
    return _take_in(request, form)


@once
def _take_in(request: GarageRequest, form: SheetForm) -> HttpResponse:
    if form.is_valid():
        member, name = request.member, form.files["sheet"].name
        table = form.cleaned_data["sheet"]
        with refused_at(form, "sheet"):
            batch = batches.take_in(member.garage, table, name, by=member, at=clock.now())
            return see(reverse("batch_columns", args=[batch.pk]))
    running = Batch.objects.visible_to(request.member).open().first()
    return page(request, "parts/batch_add.html", {"running": running}, form=form, menu="shelf")


@once
def batch_columns(request: GarageRequest, pk: int) -> HttpResponse:
    batch = editable(Batch, request.member, pk=pk)
    sample = BatchRow.objects.of(batch).sample(len(batch.headings))
    form = ColumnsForm(request.POST or None, batch=batch, sample=sample, said=headings_said(batch))
    if form.is_valid():
        with refused_aloud(request):
            batches.begin_check(batch, form.columns(), at=clock.now(), now=_now)
        return see(_page_of(pk))
    return page(request, "parts/batch_columns.html", {"batch": batch}, form=form, menu="shelf")


@require_safe
def batch_page(request: GarageRequest, pk: int) -> HttpResponse:
    batch = editable(Batch, request.member, pk=pk)
    if batch.state == Batch.State.COLUMNS:
        return see(reverse("batch_columns", args=[pk]))
    asked, number = request.GET.get("rows", ""), request.GET.get("page")
    view = batch_view(batch, asked, number, clock.now())
    context = {"batch": batch, "view": view, "page_obj": view.page, "query": f"rows={view.shown}&"}
    return page(request, "parts/batch_page.html", context, menu="shelf")


@require_safe
def batch_progress(request: GarageRequest, pk: int) -> HttpResponse:
    batch = editable(Batch, request.member, pk=pk)
    if not request.htmx:
        return see(_page_of(pk))
    view = batch_view(batch, "", None, clock.now())
    return HttpResponse(render_to_string("parts/batch_progress.html", {"view": view}))


@require_POST
@once
def batch_check(request: GarageRequest, pk: int) -> HttpResponse:
    batch = editable(Batch, request.member, pk=pk)
    return _try(request, pk, lambda: batches.begin_check(
        batch, batch.columns, at=clock.now(), now=_now))  # fmt: skip


@require_POST
@once
def batch_write(request: GarageRequest, pk: int) -> HttpResponse:
    batch = editable(Batch, request.member, pk=pk)
    return _try(request, pk, lambda: batches.begin_write(
        batch, by=request.member, at=clock.now(), now=_now))  # fmt: skip


@require_POST
@once
def batch_leave(request: GarageRequest, pk: int) -> HttpResponse:
    batch = editable(Batch, request.member, pk=pk)
    return _try(request, pk, lambda: batches.leave(batch, at=clock.now()))


def _try(request: GarageRequest, pk: int, act: Any) -> HttpResponse:
    with refused_aloud(request):
        act()
    return see(_page_of(pk))


@once
def batch_row(request: GarageRequest, pk: int) -> HttpResponse:
    row = editable(BatchRow, request.member, pk=pk)
    batch = row.batch
    form = RowForm(request.POST or None, row=row, batch=batch)
    if form.is_valid():
        try:
            verdict = batch_rows.mend(row, form.said())
        except Refused as refused:
            say_refused(request, str(refused))
            return see(_page_of(batch.pk))
        form.add_problems(verdict.problems)
        if verdict.kind != "bad":
            return see(_next(batch))
    context = {"row": row, "batch": batch, "line": row_line(row, batch)}
    return page(request, "parts/batch_row.html", context, form=form, menu="shelf")


@require_POST
@once
def batch_row_drop(request: GarageRequest, pk: int) -> HttpResponse:
    row = editable(BatchRow, request.member, pk=pk)
    with refused_aloud(request):
        batch_rows.leave_out(row)
        return see(_next(row.batch))
    return see(_page_of(row.batch_id))


def _next(batch: Batch) -> str:
    """To the next row that is bad, else back to all of them."""
    row = BatchRow.objects.of(batch).bad().first()
    return reverse("batch_row", args=[row.pk]) if row else _page_of(batch.pk)
