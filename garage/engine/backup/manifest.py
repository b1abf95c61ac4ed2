"""The manifest of a backup: what it is of, what lies in it, and what proves that it is whole."""

import json
import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from hashlib import sha256
from typing import Any, Protocol

from garage.engine.backup.values import KINDS

FORMAT = 1
MOST_BYTES = 256 * 1024**2
SETTINGS = "settings.env"
MANIFEST = "manifest.json"
TABLE_NAME = re.compile(r"[a-z0-9_]{1,63}")
PHOTO_NAME = re.compile(r"[0-9a-f]{2}/[0-9a-f]{32}-[a-z]{1,10}\.jpg")
SHA = re.compile(r"[0-9a-f]{64}")


class NotWhole(Exception):
    """A backup that cannot be used; `str()` completes "The file ...", without a full stop."""


class Contents(Protocol):
    """What the manifest of any file of ours says of it: by whom it was made, and what lies in it."""

    @property
    def version(self) -> str: ...

    @property
    def migrations(self) -> tuple[str, ...]: ...

    @property
    def digests(self) -> dict[str, str]:
        """By name in the zip, for everything but the manifest itself."""

    @property
    def lines(self) -> dict[str, int]:
        """How many an entry of rows has, by its name in the zip."""


@dataclass(frozen=True, slots=True)
class TableEntry:
    """One table: kind by column in the order of its rows, and the last number it gave a row (0: none)."""

    columns: dict[str, str]
    rows: int
    last_id: int
    sha256: str


@dataclass(frozen=True, slots=True)
class LedgerProof:
    """How many moves there are, a digest of the balances that they come to, and what is wrong, in words."""

    moves: int
    balances: str
    faults: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Manifest:
    """`made_at` in ISO 8601, UTC; digests are SHA-256 in hexadecimal; photos by their path below the folder."""

    version: str
    made_at: str
    database: str
    migrations: tuple[str, ...]
    tables: dict[str, TableEntry]
    photos: dict[str, str]
    missing_photos: tuple[str, ...]
    settings: str
    moves: int
    balances: str
    left_out: dict[str, str]
    format: int = FORMAT

    @property
    def rows(self) -> int:
        return sum(table.rows for table in self.tables.values())

    @property
    def digests(self) -> dict[str, str]:
        """By name in the zip, for everything but the manifest itself."""
        return {
            **{table_path(name): table.sha256 for name, table in self.tables.items()},
            **{photo_path(name): digest for name, digest in self.photos.items()},
            SETTINGS: self.settings,
        }

    @property
    def lines(self) -> dict[str, int]:
        return {table_path(name): table.rows for name, table in self.tables.items()}


def table_path(name: str) -> str:
    return f"tables/{name}.jsonl"


def photo_path(name: str) -> str:
    return f"photos/{name}"


def balances_digest(balances: Mapping[tuple[int, int], int]) -> str:
    """One digest of balances by (part, place), each in the part's smallest unit."""
    lines = (f"{part} {place} {quantity}\n" for (part, place), quantity in sorted(balances.items()))
    return sha256("".join(lines).encode()).hexdigest()


def manifest_text(manifest: Manifest) -> bytes:
    return json.dumps(asdict(manifest), ensure_ascii=False, indent=1).encode()


def refuse_newer(table: Mapping[str, Any], reads: int) -> None:
    """NotWhole where the file has a later format than the one that is read; KeyError where it names none."""
    number = table["format"]
    if isinstance(number, int) and number > reads:
        raise NotWhole(
            f"was made by a newer version of Witness Mark ({table.get('version')}): it has format {number},"
            f" and this version reads up to {reads}"
        )


def read_manifest(text: bytes) -> Manifest:
    """The manifest of a JSON text; NotWhole when it is of a later format or no manifest at all."""
    try:
        table = json.loads(text)
        if "what" in table:
            raise NotWhole("is the open files of one garage, which `import_garage` brings in")
        refuse_newer(table, FORMAT)
        return _checked(Manifest(**table | _narrowed(table)))
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError) as error:
        raise NotWhole(f"has a {MANIFEST} that cannot be read") from error


def _narrowed(table: Mapping[str, Any]) -> dict[str, Any]:
    tables = {name: TableEntry(**entry) for name, entry in table["tables"].items()}
    return {
        "tables": tables,
        "migrations": tuple(table["migrations"]),
        "missing_photos": tuple(table["missing_photos"]),
    }


def _checked(manifest: Manifest) -> Manifest:
    """Every name of the form that we write, so that none leads out of the folder; ValueError otherwise."""
    sound = [
        manifest.format == FORMAT,
        all(isinstance(text, str) for text in (manifest.version, manifest.made_at, manifest.database)),
        all(isinstance(name, str) and name.count(".") == 1 for name in manifest.migrations),
        all(TABLE_NAME.fullmatch(name) for name in manifest.tables),
        all(PHOTO_NAME.fullmatch(name) for name in (*manifest.photos, *manifest.missing_photos)),
        all(SHA.fullmatch(digest) for digest in (*manifest.digests.values(), manifest.balances)),
        all(kind in KINDS for table in manifest.tables.values() for kind in table.columns.values()),
        all(type(count) is int and count >= 0 for count in _counts(manifest)),
    ]
    if not all(sound):
        raise ValueError("a name, a number or a digest is of no form that we write")
    return manifest


def _counts(manifest: Manifest) -> list[int]:
    return [manifest.moves, *(count for table in manifest.tables.values() for count in (table.rows, table.last_id))]
