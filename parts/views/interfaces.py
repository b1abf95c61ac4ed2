"""What a part fits: written down kind by kind, and taken back."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from garage.http import GarageRequest, back, editable, once, page, see
from garage.refusals import refused_at
from parts.actions import interfaces
from parts.engine.fit import KINDS, words
from parts.forms.interfaces import FORMS
from parts.models import Part


@once
def interface_add(request: GarageRequest, pk: int, kind: str) -> HttpResponse:
    if kind not in FORMS:
        raise Http404
    part = editable(Part, request.member, pk=pk)
    form = FORMS[kind](request.POST or None)
    if form.is_valid():
        with refused_at(form):
            interfaces.add(part, form.interface)
            messages.success(request, f"{part}: {words(form.interface)} is written down.")
            return see(f"{reverse('part_page', args=[pk])}#fit")
    context = {"part": part, "kind": kind, "kinds": KINDS}
    return page(request, "parts/interface_add.html", context, form=form, menu="shelf")


@require_POST
@once
def interface_delete(request: GarageRequest, pk: int) -> HttpResponse:
    part, said = editable(Part, request.member, pk=pk), request.POST.get("said", "")[:200]
    interfaces.remove(part, said)
    messages.success(request, f"{part}: taken away.")
    return back(request, reverse("part_page", args=[pk]))
