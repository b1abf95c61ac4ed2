"""Heat, flows, fans, boiling."""

from tests.published.bench.value import Value

FANS = {"a_across": "406", "a_hub": "150", "a_blade": "22", "a_speed": "2200"}
FANS |= {"b_across": "305", "b_hub": "120", "b_blade": "25", "b_speed": "2800"}
IF97 = "IAPWS-IF97; ICAO standard atmosphere"
TOPIC_8 = [
    *(
        Value("8", "engine-heat", "heat balance", {"power": "150", "share": share}, {"heat": heat})
        for share, heat in (("0.6", 90), ("0.8", 120), ("1", 150))
    ),
    Value("8", "engine-heat", "ideal gas", {"power": "100", "share": "1"}, {"density": 1.1839}, 6e-5),
    Value("8", "engine-heat", "ideal gas", {"power": "100", "share": "1"}, {"air": 8636.0}, 0.06),
    Value(
        "8",
        "engine-heat",
        "ideal gas",
        {"power": "60", "share": "1", "degrees": "35", "rise": "40"},
        {"air": 1.3017 * 3600},
        0.2,
    ),
    Value(
        "8",
        "engine-heat",
        "a maker's workshop manual: 0.82 of water",
        {"power": "100", "share": "1"},
        {"coolant": 233.76},
        6e-3,
    ),
    Value(
        "8",
        "engine-heat",
        "steam tables",
        {"power": "100", "share": "1", "coolant": "water"},
        {"coolant": 211.23},
        6e-3,
    ),
    Value("8", "fan", "geometry", FANS | {"many": "1"}, {"flow_a": 1.58425, "flow_b": 0.96570, "tip_a": 46.77}, 6e-3),
    Value("8", "fan", "geometry", FANS | {"many": "1"}, {"ratio": 1.6405}, 6e-5),
    Value("8", "fan", "geometry", FANS | {"many": "2"}, {"ratio": 0.8203}, 6e-5),
    Value(
        "8",
        "fan",
        "fan laws",
        FANS | {"faster": "15"},
        {"faster_flow": 1.15, "faster_pressure": 1.3225, "faster_power": 1.520875},
    ),
    *(
        Value("8", "boiling", IF97, {"cap": cap, "coolant": "water"}, {"closed": celsius}, 6e-4)
        for cap, celsius in (
            *(("0", 99.974), ("7 psi", 111.268), ("10 psi", 115.198), ("13 psi", 118.755), ("15 psi", 120.955)),
            *(("16 psi", 122.009), ("20 psi", 125.967), ("22 psi", 127.808), ("30 psi", 134.444)),
            *(("0.9", 118.815), ("1.1", 121.962), ("1.3", 124.874), ("1.4", 126.254), ("2.0", 133.676)),
        )
    ),
    Value(
        "8",
        "boiling",
        IF97,
        {"cap": "15 psi", "height": "1500", "coolant": "water"},
        {"opened": 94.983, "closed": 118.263},
        6e-4,
    ),
    Value(
        "8",
        "boiling",
        "trade values, 2 °C",
        {"cap": "15 psi", "coolant": "half"},
        {"opened": 107.7, "closed": 128.7},
        0.06,
    ),
]
