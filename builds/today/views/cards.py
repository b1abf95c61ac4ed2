"""Job cards for an evening, on paper."""

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from builds.plan.views.following import follows
from builds.today.pages.asked import asked_words
from builds.today.pages.card_sheet import card_sheet_rows
from builds.today.sheets import cards
from builds.today.views.pulls import asked_for
from garage import clock
from garage.http import GarageRequest, pdf


@require_safe
@follows
def card_sheet(request: GarageRequest) -> HttpResponse:
    asked = asked_for(request)
    rows = card_sheet_rows(request.member.garage, clock.now(), asked, request.member)
    return pdf(cards.job_cards(rows), f"cards {asked_words(asked)}")
