"""How much may be sent as files, said by the view that takes them and held while it is read."""

from collections.abc import Callable
from typing import Any

from django.core.exceptions import RequestDataTooBig
from django.core.files.uploadhandler import (
    FileUploadHandler,
    MemoryFileUploadHandler,
    TemporaryFileUploadHandler,
)
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from garage.http import View
from garage.middleware import to_sign_in

MB = 1024**2
NO_LENGTH = "The browser did not say how much it sends: send it again, or with another one."


class TooMuch(RequestDataTooBig):
    """Answered 413 with its sentence; what was not read by then is never read."""


class Measure(FileUploadHandler):
    """Stops the reading at the first byte too many, of one file or of the whole request."""

    def __init__(self, request: HttpRequest, per_file: int, most: int) -> None:
        super().__init__(request)
        self.per_file, self.most = per_file, most
        self.of_file = self.whole = 0

    def handle_raw_input(
        self, input_data: Any, META: Any, content_length: int, boundary: Any, encoding: Any = None
    ) -> None:
        if content_length > self.most:
            self._refuse(self.most)

    def new_file(self, *args: Any, **kwargs: Any) -> None:
        super().new_file(*args, **kwargs)
        self.of_file = 0
        if not self.per_file:
            raise TooMuch("This page takes no files.")

    def receive_data_chunk(self, raw_data: bytes, start: int) -> bytes:
        self.of_file += len(raw_data)
        self.whole += len(raw_data)
        if self.of_file > self.per_file:
            self._refuse(self.per_file)
        if self.whole > self.most:
            self._refuse(self.most)
        return raw_data

    def file_complete(self, file_size: int) -> None:
        return None

    def _refuse(self, limit: int) -> None:
        for handler in self.request.upload_handlers:
            handler.upload_interrupted()  # what was put on the disk so far is removed at once
        if limit == self.per_file:
            raise TooMuch(f"A file of more than {limit // MB} MB is not taken: send a smaller one.")
        raise TooMuch(f"More than {limit // MB} MB at once is not taken: send fewer files.")


def takes_files(per_file: int, most: int) -> Callable[[View], View]:
    """A view that takes files of `per_file` bytes at most, and `most` in one request."""

    def decorate(view: View) -> View:
        view.file_limit, view.files_most = per_file, most
        return view

    return decorate


def uploads(get_response: Callable[[HttpRequest], HttpResponse]) -> Any:
    """Before anything reads a form: no view but those that say so take files, and of members."""

    def middleware(request: HttpRequest) -> HttpResponse:
        return get_response(request)

    def measured(request: HttpRequest, view: Any, args: Any, kwargs: Any) -> HttpResponse | None:
        if request.method != "POST" or not request.content_type.startswith("multipart/"):
            return None
        if not request.META.get("CONTENT_LENGTH"):
            return render(request, "400.html", {"sentence": NO_LENGTH}, status=411)
        if not request.user.is_authenticated and getattr(view, "login_required", True):
            return to_sign_in(request)  # whoever was signed out meanwhile; nothing is read of what he sends
        member = getattr(request, "member", None)
        per_file = getattr(view, "file_limit", 0) if member else 0
        most = getattr(view, "files_most", MB) if member else MB
        request.upload_handlers = [
            Measure(request, per_file, most),
            MemoryFileUploadHandler(request),
            TemporaryFileUploadHandler(request),
        ]
        return None

    middleware.process_view = measured
    return middleware
