"""Comments on a job: written, and taken back."""

from django.contrib import messages
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from builds.jobs.forms.comments import CommentForm
from builds.steps.actions import comments
from builds.work.models.comment import JobComment
from builds.work.models.job import Job
from garage import clock
from garage.access import refuse_working
from garage.http import GarageRequest, once, page, require, see, visible
from garage.refusals import refused_at


def _at(job: int) -> str:
    return f"{reverse('job_page', args=[job])}#comments"


@once
def comment_add(request: GarageRequest, pk: int) -> HttpResponse:
    job = visible(Job, request.member, pk=pk)
    require(refuse_working(request.member))
    form = CommentForm(request.POST or None)
    if form.is_valid():
        with refused_at(form, "text"):
            comments.comment(job, form.cleaned_data["text"], by=request.member, at=clock.now())
            return see(_at(pk))
    return page(request, "builds/jobs/comment_add.html", {"job": job}, form=form, menu="cars")


@require_POST
@once
def comment_delete(request: GarageRequest, pk: int) -> HttpResponse:
    comment = visible(JobComment, request.member, pk=pk)
    require(comments.refuse_take_back(comment, request.member))
    comments.take_back(comment, by=request.member)
    messages.success(request, "The comment is taken back.")
    return see(_at(comment.job_id))
