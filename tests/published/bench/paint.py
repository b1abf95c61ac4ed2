"""Cure times and dew points."""

from tests.published.bench.value import Value

TOPIC_9 = [
    *(
        Value(
            "9",
            "cure-time",
            "twice for 10 °C: a rule of thumb",
            {"hours": "16", "at": "20", "degrees": degrees, "factor": factor},
            {"hours": hours},
            6e-4,
        )
        for degrees, factor, hours in (
            *(("23", "2", 12.996), ("15", "2", 22.627), ("12", "2", 27.858), ("10", "2", 32.0), ("8", "2", 36.758)),
            *(("10", "1.8", 28.8), ("10", "2.5", 40.0)),
        )
    ),
    *(
        Value(
            "9",
            "dew-point",
            "Magnus, WMO constants; published tables",
            {"air": air, "humid": humid},
            {"dew": dew, "least": dew + 3},
            6e-4,
        )
        for air, humid, dew in (
            *(("20", "60", 11.9955), ("20", "50", 9.2552), ("10", "80", 6.7060), ("5", "85", 2.6862)),
            *(("30", "55", 19.9719), ("16", "71", 10.7408)),
        )
    ),
    Value("9", "dew-point", "published: 57 °F", {"air": "70 °F", "humid": "65"}, {"dew": (57.69 - 32) / 1.8}, 6e-3),
    Value("9", "dew-point", "ISO 8502-4", {"air": "16", "humid": "71", "metal": "13"}, {"margin": 2.26}, 6e-3),
]
