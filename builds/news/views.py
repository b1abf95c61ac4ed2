"""News by mail: asked for by oneself, stopped there or by the link in a mail."""

from django.conf import settings
from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from builds.news import actions
from builds.news.forms import NewsForm
from builds.news.models import NewsWish
from builds.news.pages import stopped_by
from garage.http import GarageRequest, once, page, see
from garage.logs import note
from garage.refusals import refused_at


@once
def news_edit(request: GarageRequest) -> HttpResponse:
    wish = NewsWish.objects.filter(member=request.member).first()
    form = NewsForm(request.POST or None, wish=wish)
    if form.is_valid():
        with refused_at(form):
            actions.wish(request.member, kinds=form.cleaned_data)
            messages.success(request, "Kept: this is the news that you get.")
            return see(reverse("news_edit"))
    context = {"sends": settings.SENDS_MAIL, "email": request.user.email, "wish": wish}
    return page(request, "builds/news/news_edit.html", context, form=form, menu="account")


@login_not_required
@require_http_methods(["GET", "HEAD", "POST"])
def news_stop(request: HttpRequest, token: str) -> HttpResponse:
    """Not `once`: nobody is signed in, and stopping twice is stopping once."""
    wish = stopped_by(token)
    if wish is None:
        answer = render(request, "404.html", status=404)
    elif request.method == "POST":
        actions.stop(wish.member)
        note("news stopped", request, member=wish.member_id)
        answer = render(request, "builds/news/news_stop.html", {"stopped": True, "garage": wish.member.garage})
    else:
        answer = render(request, "builds/news/news_stop.html", {"garage": wish.member.garage})
    # Not `no-referrer`: the browser would then send `Origin: null`, which no form may have.
    answer["Referrer-Policy"] = "strict-origin"
    answer["X-Robots-Tag"] = "noindex, nofollow"
    return answer
