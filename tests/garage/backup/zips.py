"""Backups taken apart and put together again, as somebody else might."""

import io
import json
import zipfile
from hashlib import sha256
from pathlib import Path

from garage.backup_file import BackupWriter
from garage.engine.backup.manifest import Manifest, TableEntry, manifest_text
from tests.factories import NOW


def entries(file: Path | io.BytesIO) -> dict[str, bytes]:
    with zipfile.ZipFile(file) as archive:
        return {info.filename: archive.read(info) for info in archive.infolist()}


def zipped(held: list[tuple[str, bytes]]) -> io.BytesIO:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in held:
            archive.writestr(zipfile.ZipInfo(name), data, zipfile.ZIP_DEFLATED)
    return out


def resealed(held: dict[str, bytes]) -> dict[str, bytes]:
    """With the digests and row counts of its manifest made to fit what it holds."""
    told = json.loads(held["manifest.json"])
    for name, table in told["tables"].items():
        data = held[f"tables/{name}.jsonl"]
        table |= {"sha256": sha256(data).hexdigest(), "rows": data.count(b"\n")}
    return held | {"manifest.json": json.dumps(told).encode()}


def told_otherwise(held: dict[str, bytes], **parts: object) -> dict[str, bytes]:
    return held | {"manifest.json": json.dumps(json.loads(held["manifest.json"]) | parts).encode()}


def tiny() -> io.BytesIO:
    """Of one table, one photo and two settings."""
    out, photo = io.BytesIO(), f"ab/ab{'0' * 30}-large.jpg"
    with BackupWriter(out, NOW) as writer:
        rows = writer.add("tables/garage_skill.jsonl", [b'[1,"weld"]\n', b'[2,"paint"]\n'])
        manifest = Manifest(
            version="0.1.0",
            made_at=NOW.isoformat(),
            database="sqlite",
            migrations=("garage.0001_cars_and_people",),
            tables={"garage_skill": TableEntry({"id": "integer", "slug": "text"}, 2, 2, rows)},
            photos={photo: writer.add(f"photos/{photo}", [b"a picture"], squeeze=False)},
            missing_photos=(),
            settings=writer.add("settings.env", [b"HTTPS=on\n"]),
            moves=0,
            balances="0" * 64,
            left_out={},
        )
        writer.add("manifest.json", [manifest_text(manifest)])
    return out
