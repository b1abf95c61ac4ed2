"""The code on the sheet leads back to the car, printed coarse or fine."""

import shutil
import subprocess

import pytest
import zxingcpp
from PIL import Image

from builds.paper.pages.checklist import checklist_rows
from builds.paper.sheets.checklist import checklist
from tests.factories import NOW, EntryFactory


@pytest.mark.parametrize("dpi", [203, 300])
def test_the_printed_code_is_the_cars_address(db, now, settings, tmp_path, dpi):
    assert shutil.which("pdftoppm"), "poppler-utils is not installed"
    settings.PUBLIC_URL = "https://garage.example.org"
    entry = EntryFactory()
    (tmp_path / "sheet.pdf").write_bytes(checklist(checklist_rows(entry, NOW)))
    subprocess.run(  # noqa: S603 (our own file)
        ["pdftoppm", "-r", str(dpi), "-f", "1", "-l", "1", "-png", "sheet.pdf", "sheet"],  # noqa: S607 (found above)
        cwd=tmp_path,
        check=True,
    )
    (picture,) = tmp_path.glob("sheet*.png")
    with Image.open(picture) as image:
        found = [code.text for code in zxingcpp.read_barcodes(image)]
    assert found == [f"https://garage.example.org/cars/{entry.vehicle_id}/"]
