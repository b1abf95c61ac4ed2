"""Photos of cars, parts, jobs, hold points and readings."""

from django.contrib import messages
from django.core.files.uploadedfile import UploadedFile
from django.core.paginator import Paginator
from django.http import HttpResponse
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from builds.photos.forms import CaptionForm, PhotoForm
from builds.photos.pages.story import car_story
from builds.photos.pages.subjects import Subject, shown, subject_of
from garage import clock
from garage.access import refuse_work_on
from garage.actions import photos
from garage.actions.photos import StrayFiles
from garage.actions.refused import Refused
from garage.engine.picture_sizes import MOST_BYTES
from garage.http import GarageRequest, as_seen, car_of, editable, once, page, require, see, visible
from garage.models import Photo, Vehicle
from garage.refusals import refused_aloud
from garage.uploads import MB, takes_files

SCENES = 12  # a page of them is some screens long on a phone


def _wrong(form: PhotoForm, file: UploadedFile, refused: Refused) -> None:
    form.add_error("pictures", photos.refused_words(file, refused))


@takes_files(per_file=MOST_BYTES, most=64 * MB)
def photo_add(request: GarageRequest, of: str, pk: int) -> HttpResponse:
    _, thing = shown(of, request.member, pk)
    require(refuse_work_on(request.member, car_of(thing)))
    form = PhotoForm(as_seen(request.POST) or None, request.FILES or None)  # as `once` would have it
    sent = form.cleaned_data["sent"] if form.is_valid() else []
    with photos.kept(sent) as (kept, wrong):
        for sentence in wrong:
            form.add_error("pictures", sentence)
        return _add(request, of, pk, form, kept)


@once
def _add(
    request: GarageRequest, of: str, pk: int, form: PhotoForm, kept: list[tuple[UploadedFile, StrayFiles]]
) -> HttpResponse:
    kind, thing = shown(of, request.member, pk)
    words, added = kind.words(thing), 0
    for file, stray in kept:
        try:
            photos.add(
                kind.tie, thing, stray, by=request.member, at=clock.now(),
                caption=form.cleaned_data.get("caption", ""),
            )  # fmt: skip
            added += 1
        except Refused as refused:
            _wrong(form, file, refused)
    if not added:
        context = {"words": words, "here": kind.url(thing)}
        return page(request, "builds/photos/photo_add.html", context, form=form)
    many = f"{added} photos of {words} are there." if added > 1 else f"A photo of {words} is there."
    messages.success(request, many)
    for sentence in form.errors.get("pictures", []):
        messages.error(request, sentence)
    return see(kind.url(thing))


@require_safe
def photo_story(request: GarageRequest, pk: int) -> HttpResponse:
    vehicle = visible(Vehicle, request.member, pk=pk)
    story = car_story(vehicle)
    scenes = Paginator(story.scenes, SCENES).get_page(request.GET.get("page"))
    context = {
        "vehicle": vehicle,
        "scenes": story.shown(scenes.object_list),
        "page_obj": scenes,
        "printed": story.printed,
        "works": refuse_work_on(request.member, vehicle) is None,
    }
    return page(request, "builds/photos/photo_story.html", context, menu="cars")


def _refusal(request: GarageRequest, subject: Subject) -> str | None:
    """Why he may not change a photo of it: what shows a car is kept by whoever works on it."""
    return refuse_work_on(request.member, car_of(subject.thing) if subject.thing else None)


@require_safe
def photo_page(request: GarageRequest, pk: int) -> HttpResponse:
    photo = visible(Photo, request.member, pk=pk)
    subject = subject_of(photo)
    works = _refusal(request, subject) is None
    context = {"photo": photo, "words": subject.words, "here": subject.url, "works": works}
    return page(request, "builds/photos/photo_page.html", context)


@once
def photo_edit(request: GarageRequest, pk: int) -> HttpResponse:
    photo = editable(Photo, request.member, pk=pk)
    require(_refusal(request, subject_of(photo)))
    form = CaptionForm(request.POST or None, initial={"caption": photo.caption})
    if form.is_valid():
        photos.say(photo, caption=form.cleaned_data["caption"])
        return see(reverse("photo_page", args=[pk]))
    return page(request, "builds/photos/photo_edit.html", {"photo": photo}, form=form)


@require_POST
@once
def photo_delete(request: GarageRequest, pk: int) -> HttpResponse:
    photo = editable(Photo, request.member, pk=pk)
    subject = subject_of(photo)
    require(_refusal(request, subject))
    with refused_aloud(request):
        photos.delete(photo, by=request.member)
        messages.success(request, "The photo is gone.")
        return see(subject.url)
    return see(reverse("photo_page", args=[pk]))
