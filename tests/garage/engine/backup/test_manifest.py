"""A manifest comes back as it was written, and one that was tampered with is no manifest."""

import json

import pytest

from garage.engine.backup.manifest import (
    LedgerProof,
    Manifest,
    NotWhole,
    TableEntry,
    balances_digest,
    manifest_text,
    read_manifest,
)

SHA = "0" * 64
MANIFEST = Manifest(
    version="0.1.0",
    made_at="2026-11-29T18:00:00+00:00",
    database="sqlite",
    migrations=("garage.0001_cars_and_people",),
    tables={"garage_person": TableEntry({"id": "integer", "name": "text"}, 3, 7, SHA)},
    photos={f"ab/ab{'0' * 30}-large.jpg": SHA},
    missing_photos=(f"cd/cd{'0' * 30}-small.jpg",),
    settings=SHA,
    moves=2,
    balances=SHA,
    left_out={"django_session": "who is signed in"},
)


def changed(**parts):
    return json.dumps(json.loads(manifest_text(MANIFEST)) | parts).encode()


def test_it_comes_back_as_it_was():
    assert read_manifest(manifest_text(MANIFEST)) == MANIFEST
    assert MANIFEST.rows == 3
    assert set(MANIFEST.digests) == {"tables/garage_person.jsonl", f"photos/ab/ab{'0' * 30}-large.jpg", "settings.env"}


def test_a_later_format_is_said_to_be_newer():
    with pytest.raises(NotWhole, match=r"newer version of Witness Mark \(2\.0\): it has format 2, and .* up to 1"):
        read_manifest(changed(format=2, version="2.0", tables="of another shape"))


@pytest.mark.parametrize(
    "parts",
    [
        {"format": 0},
        {"format": "1"},
        {"tables": {"../x": {"columns": {}, "rows": 0, "last_id": 0, "sha256": SHA}}},
        {"tables": {"x": {"columns": {"id": "magic"}, "rows": 0, "last_id": 0, "sha256": SHA}}},
        {"tables": {"x": {"columns": {}, "rows": -1, "last_id": 0, "sha256": SHA}}},
        {"tables": {"x": {"columns": {}, "rows": 0, "sha256": SHA}}},
        {"tables": []},
        {"photos": {"../../etc/passwd": SHA}},
        {"photos": {f"/ab/ab{'0' * 30}-large.jpg": SHA}},
        {"photos": {f"ab/ab{'0' * 30}-large.jpg": "short"}},
        {"photos": {f"ab/ab{'0' * 30}-large.jpg\n": SHA}},
        {"migrations": ["garage"]},
        {"moves": True},
        {"more": 1},
    ],
)
def test_anything_of_another_form_is_refused(parts):
    with pytest.raises(NotWhole, match="cannot be read"):
        read_manifest(changed(**parts))


@pytest.mark.parametrize("text", [b"", b"[]", b"{", b"\xff", b"[" * 100_000])
def test_what_is_no_manifest_at_all_is_refused(text):
    with pytest.raises(NotWhole, match="cannot be read"):
        read_manifest(text)


def test_balances_have_one_digest_in_any_order_and_another_when_one_differs():
    one, other = {(1, 2): 3, (1, 10): -3}, {(1, 10): -3, (1, 2): 3}
    assert balances_digest(one) == balances_digest(other) != balances_digest({**one, (1, 2): 4})
    assert LedgerProof(2, balances_digest({})).faults == ()
