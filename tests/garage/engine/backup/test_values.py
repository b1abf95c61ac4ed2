"""Every kind of value goes out as a line and comes back as it was."""

import json
import math
from datetime import UTC, date, datetime, time, timedelta, timezone
from decimal import Decimal
from uuid import UUID

import pytest

from garage.engine.backup import values
from garage.engine.backup.values import KINDS, line_of, row_of

BACK = {
    "integer": [0, -1, 2**62],
    "boolean": [True, False],
    "text": ["", "Ä 5×112 “bore”\n\t\u2028", "\x1f", "null"],
    "json": [[], {"a": [1, 2.5, None, {"b": "ö"}]}, "text", 0, False],
    "float": [0.1, -0.0, 1e300, math.inf, -math.inf],
    "decimal": [Decimal("0.10"), Decimal("-12345678901234567890.001")],
    "date": [date(2026, 2, 28)],
    "time": [time(23, 59, 59, 999999)],
    "moment": [datetime(2026, 11, 29, 18, 0, 0, 123456, tzinfo=UTC)],
    "duration": [timedelta(days=-1, seconds=5, microseconds=7)],
    "uuid": [UUID("12345678-1234-7234-8234-123456789abc")],
    "bytes": [b"", b"\x00\xff\n"],
}


def test_every_kind_is_tried():
    assert set(BACK) == set(KINDS)


@pytest.mark.parametrize(("kind", "value"), [(kind, value) for kind, tried in BACK.items() for value in [*tried, None]])
def test_a_value_comes_back_as_it_was(kind, value):
    line = line_of([kind], [value])
    assert line.count(b"\n") == 1 and line.endswith(b"\n")
    (back,) = row_of([kind], line)
    assert (back, type(back)) == (value, type(value))


def test_what_is_not_a_number_comes_back_as_that():
    assert math.isnan(row_of(["float"], line_of(["float"], [math.nan]))[0])


def test_a_moment_is_written_in_utc_and_a_view_of_bytes_as_bytes():
    east = datetime(2026, 11, 29, 18, 0, tzinfo=timezone(timedelta(hours=2)))
    assert json.loads(line_of(["moment", "bytes"], [east, memoryview(b"ab")])) == ["2026-11-29T16:00:00+00:00", "YWI="]


@pytest.mark.parametrize("line", [b"", b"{}", b"[1", b"[1,2]", b'["x"]', b"[[]]", b"\xff"])
def test_a_line_of_another_form_is_refused(line):
    with pytest.raises((ValueError, TypeError)):
        row_of(["integer"], line)


def test_a_line_too_long_to_be_read_back_is_not_written(monkeypatch):
    monkeypatch.setattr(values, "MOST_LINE", 10)
    assert line_of(["text"], ["12345"]) == b'["12345"]\n'
    with pytest.raises(ValueError, match="longer than 10"):
        line_of(["text"], ["123456"])
