"""Corner weights, perches, masses, the height of the centre of gravity."""

from tests.published.bench.value import Value

CAR = {"fl": "312.5", "fr": "298", "rl": "287", "rr": "302.5"}
SIZE = {"wheelbase": "2575", "track_front": "1475", "track_rear": "1480"}
RATES = {"rate_front": "35", "rate_rear": "30"}
STATICS, MODEL = "statics", "least energy of four springs, found again with an optimiser"
LIFT = "moments about the front hub; a van maker's guide for body builders"
TOPIC_1 = [
    Value(
        "1", "corner-weights", STATICS, CAR | SIZE, {"total": 1200, "front": 50.875, "cross": 48.75, "difference": -30}
    ),
    Value("1", "corner-weights", STATICS, CAR | SIZE, {"left": 49.9583, "behind": 1264.969, "right": 0.6469}, 5e-4),
    Value(
        "1",
        "corner-weights",
        STATICS,
        {"fl": "300", "fr": "300", "rl": "250", "rr": "250"}
        | {"wheelbase": "2500", "track_front": "1450", "track_rear": "1450"},
        {"front": 54.5455, "left": 50, "cross": 50, "behind": 1136.364, "right": 0},
        5e-4,
    ),
    Value(
        "1",
        "cg-height",
        LIFT,
        {"total": "1200", "front": "610.5", "raised": "624.5", "height": "400", "wheelbase": "2575"}
        | {"radius_front": "300", "radius_rear": "300"},
        {"angle": 8.9365, "height": 491.0456, "per_kg": 13.646},
        5e-4,
    ),
    Value(
        "1",
        "cg-height",
        LIFT,
        {"total": "1200", "front": "610.5", "raised": "624.5", "height": "250", "wheelbase": "2575"}
        | {"radius_front": "300", "radius_rear": "300"},
        {"per_kg": 21.998},
        5e-4,
    ),
    Value(
        "1",
        "perch-turns",
        MODEL,
        CAR | SIZE | RATES | {"cross": "50", "perch": "fl", "pitch": "2"},
        {
            "fl_perch": -9.08845,
            **{"fl_after": 304.9873, "fr_after": 305.5127, "rl_after": 294.4873, "rr_after": 295.0127},
            **{"fl_sinks": 6.9835, "fr_sinks": 2.1050, "rl_sinks": 2.4475, "rr_sinks": -2.4475},
        },
        6e-5,
    ),
    Value(
        "1",
        "masses",
        MODEL,
        CAR | SIZE | RATES | {"masses": "driver 60 kg at 1350; -360"},
        {
            **{"fl_after": 334.6325, "fr_after": 304.4112, "rl_after": 309.4887, "rr_after": 311.4676},
            **{"total_after": 1260, "front_after": 50.7178, "left_after": 51.1207, "cross_after": 48.7222},
            **{"behind_after": 1269.018, "right_after": -16.527},
        },
        6e-4,
    ),
    Value(
        "1",
        "masses",
        MODEL,
        CAR | SIZE | RATES | {"masses": "spare wheel -14 kg at 3000; 0"},
        {
            "fl_after": 313.6553,
            "fr_after": 299.1553,
            "rl_after": 278.8447,
            "rr_after": 294.3447,
            "front_after": 51.6704,
        },
        6e-5,
    ),
]
