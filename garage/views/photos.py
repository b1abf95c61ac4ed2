"""The file of a photo, for members of its garage alone."""

from django.http import FileResponse, Http404
from django.http.response import HttpResponseBase
from django.views.decorators.http import require_safe

from garage import photo_files
from garage.engine.picture_sizes import SIZES
from garage.http import GarageRequest, visible
from garage.models import Photo


@require_safe
def photo_file(request: GarageRequest, pk: int, size: str) -> HttpResponseBase:
    photo = visible(Photo, request.member, pk=pk)
    if size not in SIZES:
        raise Http404
    try:
        file = photo_files.path(photo.name, size).open("rb")
    except FileNotFoundError:
        raise Http404 from None
    answer = FileResponse(file, content_type="image/jpeg", filename=f"photo-{photo.pk}.jpg")
    answer["Content-Security-Policy"] = "default-src 'none'; sandbox"
    answer["Cache-Control"] = "private, max-age=86400"
    return answer
