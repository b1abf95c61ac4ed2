"""What a PDF says, page by page, for tests of whatever answers one."""

from io import BytesIO

import pytest


def texts(data: bytes) -> list[str]:
    """The words of every page, blanks made even; skips where only the app's own needs are met."""
    pypdf = pytest.importorskip("pypdf")
    reader = pypdf.PdfReader(BytesIO(data))
    return [" ".join(page.extract_text().split()) for page in reader.pages]


def answered(answer) -> list[str]:
    """As `texts`, of an answer that must be a PDF."""
    assert answer.status_code == 200, answer.content.decode()
    assert answer["Content-Type"] == "application/pdf"
    return texts(answer.content)
