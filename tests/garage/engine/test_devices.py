"""What kind of device asks, as browsers say it of themselves."""

import pytest

from garage.engine.devices import device_kind, device_words

# As browsers send them, from memory.
PHONE = (
    "Mozilla/5.0 (Linux; Android 14; Nothing) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/126.0 Mobile Safari/537.36"
)
IPHONE = (
    "Mozilla/5.0 (iPhone; CPU iPhone OS 17_5 like Mac OS X) AppleWebKit/605.1.15 Version/17.5 Mobile/15E Safari/604.1"
)
TABLET = "Mozilla/5.0 (Linux; Android 13) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/126.0 Safari/537.36"
DESK = "Mozilla/5.0 (X11; Linux x86_64; rv:127.0) Gecko/20100101 Firefox/127.0"


@pytest.mark.parametrize(
    ("agent", "kind", "words"),
    [
        (PHONE, "phone", "Android, Chrome"),
        (IPHONE, "phone", "iPhone, Safari"),
        (TABLET, "tablet", "Android, Chrome"),
        (DESK, "computer", "Linux, Firefox"),
        ("", "unknown", ""),
        ("curl", "unknown", ""),
        ("x" * 100_000, "unknown", ""),
        (f"{'x' * 400} Android", "unknown", ""),
    ],
)
def test_a_device_is_known_by_what_its_browser_says(agent, kind, words):
    assert (device_kind(agent), device_words(agent)) == (kind, words)
