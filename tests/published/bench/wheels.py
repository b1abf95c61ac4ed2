"""Patterns, offsets and thread engaged."""

from tests.published.bench.value import Value

CIRCLE = "geometry; factors of published stud charts"
TOPIC_5 = [
    *(
        Value("5", "wheel-pattern", CIRCLE, {"studs": studs, "centre": "100", "which": which}, {"pcd": pcd}, 6e-5)
        for studs, which, pcd in (
            ("3", "next", 115.4701),
            ("4", "next", 141.4214),
            ("5", "next", 170.1302),
            ("5", "skip", 105.1462),
            ("6", "next", 200.0),
        )
    ),
    *(
        Value("5", "wheel-pattern", "published chart of chords", {"studs": studs, "centre": chord}, {"pcd": pcd}, 2e-4)
        for studs, pcd, chord in (
            *(
                ("4", pcd, chord)
                for pcd, chord in ((98, "69.2965"), (100, "70.7107"), (108, "76.3675"), (114.3, "80.8223"))
            ),
            *(
                ("5", pcd, chord)
                for pcd, chord in ((98, "57.6030"), (100, "58.7785"), (108, "63.4808"), (112, "65.8319"))
            ),
            *(("5", pcd, chord) for pcd, chord in ((114.3, "67.1839"), (120, "70.5342"), (120.65, "70.9163"))),
            *(("5", pcd, chord) for pcd, chord in ((127, "74.6487"), (139.7, "82.1136"))),
            *(("6", pcd, chord) for pcd, chord in ((114.3, "57.15"), (139.7, "69.85"))),
        )
    ),
    Value("5", "wheel-pattern", CIRCLE, {"studs": "5", "centre": "67.1839"}, {"skip": 108.7058}, 2e-4),
    Value("5", "wheel-pattern", CIRCLE, {"studs": "5", "gap": "55.18", "hole": "12"}, {"pcd": 114.293}, 6e-4),
    Value("5", "wheel-pattern", CIRCLE, {"studs": "5", "centre": "67.1839", "hole": "14"}, {"overreads": 115.71}, 6e-3),
    *(
        Value(
            "5",
            "wheel-offset",
            "offset and backspace with one inch for both flanges, as published",
            {"old_width": width, "old_offset": et, "new_width": "8", "new_offset": "35"},
            {"old_backspace": back},
            6e-4,
        )
        for width, et, back in (("8", "35", 149.3), ("7", "0", 101.6), ("10", "-12", 127.7))
    ),
    Value(
        "5",
        "wheel-offset",
        "the same",
        {"old_width": "8", "old_offset": "0", "new_width": "8", "new_backspace": "5.5 in"},
        {"new_et": 25.4},
    ),
    Value(
        "5",
        "wheel-offset",
        "geometry",
        {"old_width": "8", "old_offset": "35", "new_width": "9", "new_offset": "20", "spacer": "5"},
        {"outer": 32.7, "inner": -7.3, "track": 40},
    ),
    Value(
        "5",
        "wheel-offset",
        "geometry",
        {"old_width": "8", "old_offset": "35", "new_width": "8", "new_offset": "35", "spacer": "15"},
        {"outer": 15, "inner": -15, "track": 30},
    ),
    *(
        Value(
            "5",
            "stud-engagement",
            "1.0 across in steel, 1.5 in soft metal: common practice, no source; attributed to Carroll Smith",
            {"free": "60", "across": across, "pitch": pitch, "pad": "8", "nut": nut},
            {"turns_needed": turns},
            6e-4,
        )
        for across, pitch, nut, turns in (
            ("12", "1.25", "steel", 9.6),
            ("12", "1.5", "steel", 8),
            ("14", "1.5", "steel", 9.3333),
            ("14", "1.25", "steel", 11.2),
            ("12.7", "1.27", "steel", 10),
            ("12", "1.5", "soft", 12),
            ("14", "1.5", "soft", 14),
        )
    ),
    Value(
        "5",
        "stud-engagement",
        "common practice, no source",
        {"free": "40", "across": "12", "pitch": "1.5", "spacer": "20", "pad": "8"},
        {"stud": 40, "engaged": 12, "lacking": 0},
    ),
]
