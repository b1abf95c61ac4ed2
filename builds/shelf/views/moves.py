"""Parts moved: off a shelf or a car, onto one, lent, counted, and undone."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from builds.shelf.actions import shelf
from builds.shelf.forms import CountForm, MoveForm
from builds.shelf.pages.move_page import fitting_words, likely_job, move_view
from builds.work.facts.room_now import room_now
from builds.work.models.owed import Owed
from garage import clock
from garage.http import GarageRequest, back, editable, once, page
from garage.refusals import refused_aloud, refused_at
from parts.actions import stock
from parts.engine.ledger import VERBS
from parts.engine.words import amount_words
from parts.models import Move, Part


@once
def part_move(request: GarageRequest, pk: int, verb: str) -> HttpResponse:
    if verb not in VERBS or verb == "count":
        raise Http404
    part, at = editable(Part, request.member, pk=pk), clock.now()
    more = {"asked": request.GET, "job": likely_job(part, verb), "by": request.member}
    form = MoveForm(request.POST or None, part=part, verb=verb, **more)
    if form.is_valid():
        with refused_at(form):
            move = shelf.carry_out(part, verb, by=request.member, at=at, **form.cleaned_data)
            messages.success(request, _said(move))
            if work := fitting_words(move):
                messages.success(request, work)
            for sentence in room_now(request.member.garage_id, at).stops().values():
                messages.error(request, sentence)
            return back(request, reverse("part_page", args=[pk]))
    job = str(form["job"].value() or "") if "job" in form.fields else ""
    view = move_view(part, verb, form.sources, job if job.isdecimal() else "", at)
    return page(
        request,
        "builds/shelf/part_move.html",
        {"part": part, "view": view},
        form=form,
        menu="shelf",
    )


def _said(move: Move) -> str:
    """What was done, and what a car is owed for it."""
    many = f"{amount_words(move.part.unit, move.quantity)} of " if move.quantity > 1 else ""
    owed = Owed.objects.filter(move=move).select_related("vehicle").first()
    more = f" {owed.vehicle} is owed it." if owed else ""
    if move.verb == "return" and move.part.condition == Part.Condition.REPAIR:
        more += " If it is mended, change its condition."
    return f"{many}{move.part}: {VERBS[move.verb].done}, now at {move.target}.{more}"


@once
def part_count(request: GarageRequest, pk: int) -> HttpResponse:
    part = editable(Part, request.member, pk=pk)
    form = CountForm(request.POST or None, part=part, asked=request.GET.get("place", ""))
    if form.is_valid():
        with refused_at(form):
            move = stock.count(part, by=request.member, at=clock.now(), **form.cleaned_data)
            said = "the difference is written down." if move else "as many as were written down."
            messages.success(request, f"{part} is counted: {said}")
            return back(request, reverse("part_page", args=[pk]))
    return page(request, "builds/shelf/part_count.html", {"part": part}, form=form, menu="shelf")


@require_POST
@once
def move_undo(request: GarageRequest, pk: int) -> HttpResponse:
    mistake = editable(Move, request.member, pk=pk)
    with refused_aloud(request):
        shelf.undo(mistake, by=request.member, at=clock.now())
        done = VERBS[mistake.verb].done
        messages.success(request, f"{mistake.part}: {done} is undone, back at {mistake.source}.")
    return back(request, reverse("part_page", args=[mistake.part_id]))
