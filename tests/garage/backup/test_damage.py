"""A backup that is damaged, cut or made up is refused in a sentence, and nothing is changed."""

import io
import json
import struct
import zipfile

import pytest
from django.core.management import CommandError

from garage.backup_file import opened
from garage.engine.backup.manifest import NotWhole
from tests.garage.backup.homes import garage_tables, pictures, run
from tests.garage.backup.zips import entries, resealed, tiny, told_otherwise, zipped

ROOM = 10**9


def flipped(data, at):
    return data[:at] + bytes([data[at] ^ 0xFF]) + data[at + 1 :]


def start_of(data, info):
    name, extra = struct.unpack_from("<HH", data, info.header_offset + 26)
    return info.header_offset + 30 + name + extra


def test_a_byte_flipped_in_any_part_is_noticed(backed_up):
    data = backed_up.read_bytes()
    parts = zipfile.ZipFile(backed_up).infolist()
    assert len(parts) > 70
    for info in parts:
        broken = flipped(data, start_of(data, info) + info.compress_size // 2)
        with pytest.raises(NotWhole):
            opened(io.BytesIO(broken), free=ROOM)


def test_whatever_byte_is_flipped_it_is_noticed_or_does_not_matter():
    data, whole, refused = tiny().getvalue(), entries(tiny()), 0
    for at in range(len(data)):
        file = io.BytesIO(flipped(data, at))
        try:
            reader = opened(file, free=ROOM)
        except NotWhole:
            refused += 1
            continue
        assert b"".join(reader.lines("garage_skill")) == whole["tables/garage_skill.jsonl"]
        assert [reader.photo(name) for name in reader.manifest.photos] == [b"a picture"]
        assert reader.manifest == opened(tiny(), free=ROOM).manifest
    assert refused > len(data) / 2


@pytest.mark.parametrize("share", [0, 0.01, 0.3, 0.9, 0.999])
def test_a_file_that_was_cut_off_is_refused(backed_up, share):
    data = backed_up.read_bytes()
    with pytest.raises(NotWhole, match="damaged or cut off"):
        opened(io.BytesIO(data[: int(len(data) * share)]), free=ROOM)


def test_what_lacks_a_part_or_has_one_more_is_refused(backed_up):
    held = entries(backed_up)
    photo = next(name for name in held if name.startswith("photos/"))
    for name in (photo, "tables/parts_move.jsonl", "settings.env"):
        less = [item for item in held.items() if item[0] != name]
        with pytest.raises(NotWhole, match=f"lacks {name}"):
            opened(zipped(less), free=ROOM)
    for name in ("../../etc/cron.d/x", "/etc/passwd", "photos/../../x", "C:\\x", "tables/", "more.txt"):
        with pytest.raises(NotWhole, match="something that its manifest does not name"):
            opened(zipped([*held.items(), (name, b"x")]), free=ROOM)
    with pytest.raises(NotWhole, match=r"no manifest\.json"):
        opened(zipped([("readme.txt", b"hello")]), free=ROOM)


@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_a_name_that_is_there_twice_is_refused(backed_up):
    held = entries(backed_up)
    with pytest.raises(NotWhole, match="holds a name twice"):
        opened(zipped([*held.items(), ("settings.env", b"DEBUG=on\n")]), free=ROOM)


def test_what_unpacks_to_more_than_there_is_room_for_is_not_unpacked(backed_up):
    bomb = [*entries(backed_up).items(), ("photos/00.jpg", bytes(80 * 1024**2))]
    with pytest.raises(NotWhole, match="unpacks to 80 MB, and there is room for 50 MB"):
        opened(zipped(bomb), free=50 * 1024**2)


def test_rows_that_are_fewer_than_was_said_are_refused():
    held = entries(tiny())
    told = json.loads(held["manifest.json"])["tables"]
    told["garage_skill"]["rows"] = 3
    with pytest.raises(NotWhole, match=r"has 2 rows in tables/garage_skill.jsonl, not 3"):
        opened(zipped(list(told_otherwise(held, tables=told).items())), free=ROOM)


def move_more(held):
    """The first move moves one more than it did."""
    name = "tables/parts_move.jsonl"
    first, rest = held[name].split(b"\n", 1)
    at = list(json.loads(held["manifest.json"])["tables"]["parts_move"]["columns"]).index("quantity")
    row = json.loads(first)
    row[at] += 1
    return {name: json.dumps(row).encode() + b"\n" + rest}


def lose(table):
    return lambda held: {f"tables/{table}.jsonl": b""}


def mistype(held):
    return {"tables/garage_skill.jsonl": held["tables/garage_skill.jsonl"].replace(b"[1,", b'["one",', 1)}


def repeat(held):
    first = held["tables/garage_skill.jsonl"].split(b"\n")[0]
    return {"tables/garage_skill.jsonl": held["tables/garage_skill.jsonl"] + first + b"\n"}


def forget_moves(held):
    """No moves, no balances: nothing that does not add up, and not what it was."""
    gone = ("parts_move", "parts_balance", "builds_partuse", "builds_owed")
    return {f"tables/{table}.jsonl": b"" for table in gone}


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (move_more, "a ledger that does not add up"),
        (forget_moves, "comes to other balances than it had"),
        (lose("garage_vehicle"), "the SQLite database here refuses"),
        (repeat, "the SQLite database here refuses: UNIQUE"),
        (mistype, "a row in garage_skill that cannot be read"),
    ],
)
def test_rows_changed_with_care_are_refused_too_and_nothing_is_changed(home, backed_up, quick, tmp_path, change, said):
    before, shown, names = garage_tables(home.database), pictures(home.photos), set(home.folder.iterdir())
    held = entries(backed_up)
    file = tmp_path / "changed.zip"
    file.write_bytes(zipped(list(resealed(held | change(held)).items())).getvalue())
    with pytest.raises(CommandError, match=rf"^Nothing was restored: {file} .*{said}"):
        run("restore", file, replace=True)
    assert (garage_tables(home.database), pictures(home.photos)) == (before, shown)
    assert set(home.folder.iterdir()) <= names | {home.folder / "garage.sqlite3-journal"}


def test_another_shape_of_tables_is_refused(home, backed_up, quick, tmp_path):
    told = json.loads(entries(backed_up)["manifest.json"])["tables"]
    columns = {"id": "integer", "name": "text"}
    for tables, said in (
        ({**told, "garage_skill": told["garage_skill"] | {"columns": columns}}, "has other columns in garage_skill"),
        ({name: table for name, table in told.items() if name != "garage_skill"}, "lacks the table garage_skill"),
    ):
        held = told_otherwise(entries(backed_up), tables=tables)
        file = tmp_path / "shape.zip"
        wanted = {f"tables/{name}.jsonl" for name in tables}
        kept = [item for item in held.items() if item[0] in wanted or not item[0].startswith("tables/")]
        file.write_bytes(zipped(kept).getvalue())
        with pytest.raises(CommandError, match=said):
            run("restore", file, replace=True)


def test_what_is_no_backup_and_what_is_not_there_are_one_sentence(home, tmp_path):
    (tmp_path / "notes.txt").write_text("not a zip")
    with pytest.raises(CommandError, match=r"notes.txt is no backup, or is damaged or cut off\."):
        run("restore", tmp_path / "notes.txt", replace=True)
    with pytest.raises(CommandError, match=r"Nothing was restored: .*gone.zip: No such file"):
        run("restore", tmp_path / "gone.zip", replace=True)
