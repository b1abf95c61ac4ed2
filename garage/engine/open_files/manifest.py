"""The manifest of a garage's open files."""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from garage.engine.backup.manifest import MANIFEST, PHOTO_NAME, SHA, TABLE_NAME, NotWhole, photo_path, refuse_newer
from garage.engine.backup.values import KINDS
from garage.engine.open_files.contents import GUIDE

WHAT = "a garage as open files"
FORMAT = 1
MOST_ROWS = 2_000_000


@dataclass(frozen=True, slots=True)
class OpenTable:
    """One table: kind by column, how many rows, and the SHA-256 of its two files."""

    columns: dict[str, str]
    rows: int
    json: str
    csv: str


@dataclass(frozen=True, slots=True)
class OpenManifest:
    """`made_at` in ISO 8601, UTC; `garage` is its name; photos by their path below the folder; `guide` a digest."""

    version: str
    made_at: str
    garage: str
    emails: bool
    migrations: tuple[str, ...]
    tables: dict[str, OpenTable]
    photos: dict[str, str]
    missing_photos: tuple[str, ...]
    guide: str
    withheld: dict[str, dict[str, str]]
    left_out: dict[str, str]
    what: str = WHAT
    format: int = FORMAT

    @property
    def rows(self) -> int:
        return sum(table.rows for table in self.tables.values())

    @property
    def digests(self) -> dict[str, str]:
        return {
            **{json_path(name): table.json for name, table in self.tables.items()},
            **{csv_path(name): table.csv for name, table in self.tables.items()},
            **{photo_path(name): digest for name, digest in self.photos.items()},
            GUIDE: self.guide,
        }

    @property
    def lines(self) -> dict[str, int]:
        """A list in JSON has a line more at either end."""
        return {json_path(name): table.rows + 2 for name, table in self.tables.items()}


def json_path(table: str) -> str:
    return f"json/{table}.json"


def csv_path(table: str) -> str:
    return f"csv/{table}.csv"


def open_manifest_text(manifest: OpenManifest) -> bytes:
    return json.dumps(asdict(manifest), ensure_ascii=False, indent=1).encode()


def read_open_manifest(text: bytes) -> OpenManifest:
    """The manifest of a JSON text; NotWhole when it is of a later format, of a backup, or none at all."""
    try:
        table = json.loads(text)
        if table.get("what") != WHAT:
            raise NotWhole(
                "is a backup of a whole server, which `restore` brings back"
                if "settings" in table
                else "is none that `export_garage` wrote"
            )
        refuse_newer(table, FORMAT)
        return _checked(OpenManifest(**table | _narrowed(table)))
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError) as error:
        raise NotWhole(f"has a {MANIFEST} that cannot be read") from error


def _narrowed(table: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "tables": {name: OpenTable(**entry) for name, entry in table["tables"].items()},
        "migrations": tuple(table["migrations"]),
        "missing_photos": tuple(table["missing_photos"]),
    }


def _checked(manifest: OpenManifest) -> OpenManifest:
    """Every name of the form that we write, so that none leads out of the folder; ValueError otherwise."""
    counts = [table.rows for table in manifest.tables.values()]
    sound = [
        manifest.format == FORMAT,
        isinstance(manifest.emails, bool),
        all(isinstance(text, str) for text in (manifest.version, manifest.made_at, manifest.garage)),
        all(isinstance(name, str) and name.count(".") == 1 for name in manifest.migrations),
        all(TABLE_NAME.fullmatch(name) for name in manifest.tables),
        all(PHOTO_NAME.fullmatch(name) for name in (*manifest.photos, *manifest.missing_photos)),
        all(SHA.fullmatch(digest) for digest in manifest.digests.values()),
        all(kind in KINDS for table in manifest.tables.values() for kind in table.columns.values()),
        all(type(count) is int and count >= 0 for count in counts),
    ]
    if not all(sound):
        raise ValueError("a name, a number or a digest is of no form that we write")
    if sum(counts) > MOST_ROWS:
        raise NotWhole(f"has {sum(counts)} rows: no garage has more than {MOST_ROWS}")
    return manifest
