"""Sheets brought to the shelf and written to it, as the pages do."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from parts.models import Batch


@pytest.fixture
def bring(owner, django_capture_on_commit_callbacks):
    """Uploads a file, takes the columns as guessed, and has every row looked through."""

    def bring(data, name="shelf.csv", client=owner, columns=None):
        data = data.encode() if isinstance(data, str) else data
        answer = client.press("/shelf/sheets/add/", {"sheet": SimpleUploadedFile(name, data)})
        assert answer.status_code == 303, answer.context["form"].errors
        batch = Batch.objects.first()
        form = client.get(f"/shelf/sheets/{batch.pk}/columns/").context["form"]
        chosen = {field.name: field.value() or "" for field in form} | (columns or {})
        with django_capture_on_commit_callbacks(execute=True):
            assert client.press(f"/shelf/sheets/{batch.pk}/columns/", chosen).status_code == 303
        batch.refresh_from_db()
        return batch

    return bring


@pytest.fixture
def write(owner, django_capture_on_commit_callbacks):
    def write(batch):
        with django_capture_on_commit_callbacks(execute=True):
            owner.press(f"/shelf/sheets/{batch.pk}/write/")
        batch.refresh_from_db()
        return batch

    return write
