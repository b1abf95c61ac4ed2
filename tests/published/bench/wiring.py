"""Conductors, drops, what they may carry."""

from tests.published.bench.value import Value

WIRE = {"amps": "25", "feed": "3.5", "back": "1.5", "drop": "5"}
IEC, ASTM = "IEC 60228 class 5, 0.00393 a kelvin (from memory)", "ASTM B258; copper of 1/58, NBS Handbook 100"
TOPIC_7 = [
    *(
        Value(
            "7",
            "wire-size",
            ASTM,
            {"amps": "1", "feed": "1", "back": "0", "degrees": "20", "size": f"awg{gauge}"},
            answers,
            6e-4,
        )
        for gauge, area, milliohms in (
            (20, 0.5176, 33.309),
            (18, 0.8230, 20.948),
            (16, 1.3087, 13.174),
            (14, 2.0809, 8.2855),
            (12, 3.3088, 5.2108),
            (10, 5.2612, 3.2771),
            (8, 8.3656, 2.0610),
            (6, 13.302, 1.2962),
            (4, 21.151, 0.8152),
            (2, 33.631, 0.5127),
        )
        for answers in [{"size": area, "lost": milliohms / 1000}]
    ),
    *(
        Value(
            "7",
            "wire-size",
            IEC,
            {"amps": "1", "feed": "1", "back": "0", "degrees": "20", "size": size},
            {"lost": milliohms / 1000},
        )
        for size, milliohms in (
            *(("0.5", 39.0), ("0.75", 26.0), ("1", 19.5), ("1.5", 13.3), ("2.5", 7.98)),
            *(("4", 4.95), ("6", 3.30), ("10", 1.91), ("16", 1.21), ("25", 0.780)),
        )
    ),
    Value("7", "wire-size", IEC, WIRE | {"size": "4", "degrees": "20"}, {"lost": 0.6188}, 6e-5),
    Value("7", "wire-size", IEC, WIRE | {"size": "4", "degrees": "60"}, {"lost": 0.7160}, 6e-5),
    Value("7", "wire-size", IEC, WIRE | {"size": "4", "degrees": "60"}, {"share": 5.189, "heat": 17.90}, 6e-3),
    Value("7", "wire-size", IEC, WIRE | {"size": "2.5", "degrees": "20"}, {"lost": 0.9975}, 6e-5),
    Value("7", "wire-size", IEC, WIRE | {"size": "2.5", "degrees": "60"}, {"lost": 1.1543, "share": 8.365}, 6e-4),
    *(
        Value(
            "7",
            "wire-size",
            IEC,
            {"amps": "80", "feed": "3", "back": "2.5", "size": "16", "degrees": degrees},
            {"lost": lost, "share": share},
            6e-4,
        )
        for degrees, lost, share in (("20", 0.5324, 3.8580), ("60", 0.6161, 4.464))
    ),
    Value("7", "wire-size", "copper of 1/58", WIRE | {"degrees": "20", "drop": "3"}, {"least": 5.2057}, 6e-5),
    Value(
        "7",
        "wire-size",
        "copper of 1/58",
        {"amps": "80", "feed": "3", "back": "2.5", "degrees": "20", "size": "25"},
        {"least": 18.324},
        6e-4,
    ),
    *(
        Value(
            "7",
            "wire-size",
            "ABYC E-11, 33 CFR 183.425",
            {"amps": "5", "feed": "1", "back": "1", "size": f"awg{gauge}", "place": place},
            {"carries": amps},
        )
        for gauge, outside, inside in (
            *((18, 20, 17), (16, 25, 21), (14, 35, 30), (12, 45, 38), (10, 60, 51)),
            *((8, 80, 68), (6, 120, 102), (4, 160, 136), (2, 210, 178)),
        )
        for place, amps in (("elsewhere", outside), ("engine", inside))
    ),
    Value("7", "wire-size", "three quarters of a fuse: from memory", WIRE, {"fuse": 40}),
]
