"""Pages that show the plan show one of the garage as it is."""

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.http import HttpResponse

from builds.plan.actions.follow import follow
from builds.plan.engine.words import older_plan_words
from garage import clock
from garage.http import GarageRequest

View = Callable[..., HttpResponse]


def follows(view: View) -> View:
    """Before a page is drawn the plan is made anew where it is behind; `cannot_plan` says that and why it cannot be."""

    @wraps(view)
    def following(request: GarageRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        if request.method != "POST":  # a write is followed once it is committed
            request.cannot_plan = older_plan_words(follow(request.member.garage, at=clock.now()))
        return view(request, *args, **kwargs)

    following.follows_the_plan = True  # read by the tests
    return following
