"""The steering linkage: locks, Ackermann, over centre, ratio and effort, tie-rod turns."""

from tests.published.bench.value import Value

S1 = {
    "kingpins": "1400",
    "wheelbase": "2550",
    "arm": "125",
    "arm_in": "8",
    "inner": "640",
    "rack": "100",
    "per_turn": "50",
}
S2 = S1 | {"arm": "95"}
S6 = S2 | {"arm_in": "0", "rack": "95"}
ROD = "found again by continuing along the rod's length"


def _lock(car, travel, inner, outer, ideal, angle, cot, mu_inner, mu_outer, margin):
    answers = {"inner": inner, "outer": outer, "ideal": ideal, "mu_inner": mu_inner, "mu_outer": mu_outer}
    return [
        Value("2", "steering-linkage", ROD, car | {"travel": travel}, answers | {"margin": margin}, 6e-4),
        Value("2", "steering-linkage", ROD, car | {"travel": travel}, {"ackermann": angle, "ackermann_cot": cot}, 2e-3),
    ]


TOPIC_2 = [
    *_lock(S1, "30", 14.0678, 13.7689, 12.4227, 18.168, 16.424, 109.569, 80.386, 70.431),
    *_lock(S1, "65", 32.7875, 30.6096, 25.4479, 29.673, 25.103, 131.632, 64.963, 48.368),
    *_lock(S2, "30", 19.2535, 18.1669, 16.3349, 37.231, 33.598, 119.682, 80.847, 60.318),
    *_lock(S2, "65", 51.4880, 40.6688, 36.6347, 72.841, 67.049, 157.601, 60.461, 22.399),
    *_lock(S2 | {"inner": "652"}, "65", 51.5841, 40.6630, 36.6906, 73.328, 67.590, 157.855, 60.518, 22.145),
    *_lock(S6, "65", 43.9497, 42.4988, 32.2261, 12.376, 9.836, 137.964, 51.267, 42.036),
    *(
        Value(
            "2",
            "steering-linkage",
            ROD,
            car | {"travel": "30"},
            {"toggle": toggle, "travel_40": at[0], "travel_30": at[1], "travel_20": at[2]},
            6e-3,
        )
        for car, toggle, at in (
            (S1, 98.035, (75.26, 85.13, 92.27)),
            (S2, 70.870, (52.41, 60.39, 66.18)),
            (S2 | {"inner": "652"}, 70.723, (52.31, 60.27, 66.05)),
            (S6, 85.403, (66.89, 74.89, 80.70)),
        )
    ),
    *(
        Value("2", "steering-linkage", "central differences", car | {"travel": "30"}, {"gain_centre": gain}, 6e-6)
        for car, gain in ((S1, 0.45864), (S2, 0.61043), (S2 | {"inner": "652"}, 0.61045), (S6, 0.60311))
    ),
    Value(
        "2",
        "steering-linkage",
        "virtual work",
        S1 | {"travel": "65"},
        {"ratio_centre": 15.6985, "rim_centre": 109.20},
        6e-3,
    ),
    Value("2", "steering-linkage", "virtual work", S1 | {"travel": "65"}, {"rim_lock": 133.17}, 6e-3),
    Value(
        "2",
        "steering-linkage",
        "virtual work",
        S2 | {"travel": "65"},
        {"ratio_centre": 11.7950, "rim_centre": 145.34},
        6e-3,
    ),
    Value("2", "steering-linkage", "virtual work", S2 | {"travel": "65"}, {"rim_lock": 268.94}, 6e-3),
    Value("2", "steering-linkage", "virtual work", S2 | {"travel": "65"}, {"rack_lock": 5914}, 0.5),
    Value(
        "2",
        "steering-change",
        "virtual work",
        S1 | {"travel": "65", "new_arm": "95"},
        {"effort": 33.1, "margin": 22.399},
        0.05,
    ),
    *(
        Value(
            "2",
            "ackermann",
            "ISO 8855:2011 7.1.9; Jazar, Vehicle Dynamics, chapter 7 (from memory)",
            {"inner": inner, "kingpins": across, "wheelbase": base},
            {"ideal": ideal},
            6e-6,
        )
        for inner, across, base, ideal in (
            ("20", "1524", "2540", 16.63259),
            ("38", "1400", "2550", 28.66801),
            ("45", "1450", "2600", 32.69946),
            ("55", "1500", "2600", 38.06113),
        )
    ),
    *(
        Value(
            "2",
            "tie-rod-turn",
            "worked twice, by two methods",
            car | {"pitch": "1.5"},
            {"by_gain": gain, "longer": longer, "shorter": shorter},
            6e-6,
        )
        for car, gain, longer, shorter in ((S1, 0.68944, 0.68915, -0.68978), (S2, 0.91576, 0.91461, -0.91700))
    ),
]
