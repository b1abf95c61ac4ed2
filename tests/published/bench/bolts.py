"""Stress areas, preloads and torques."""

from tests.published.bench.value import Value

ISO_898 = "ISO 898-1, stress areas as tabled, 0.6 %"
# thread, area mm², then preload kN and torque N·m at K 0.20 and 0.15 for 8.8, 10.9 and 12.9
_BOLTS = """
M6x1     20.1  8.743  10.49 7.87    12.512 15.01 11.26    14.623 17.55 13.16
M8x1.25  36.6 15.921  25.47 19.11   22.784 36.45 27.34    26.627 42.60 31.95
M8x1     39.2 17.052  27.28 20.46   24.402 39.04 29.28    28.518 45.63 34.22
M10x1.5  58.0 25.230  50.46 37.84   36.105 72.21 54.16    42.195 84.39 63.29
M10x1    64.5 28.058  56.12 42.09   40.151 80.30 60.23    46.924 93.85 70.39
M12x1.75 84.3 36.670  88.01 66.01   52.477 125.94 94.46   61.328 147.19 110.39
M12x1.25 92.1 40.063  96.15 72.11   57.332 137.60 103.20  67.003 160.81 120.60
M14x2    115  50.025 140.07 105.05  71.588 200.44 150.33  83.662 234.25 175.69
M14x1.5  125  54.375 152.25 114.19  77.812 217.88 163.41  90.938 254.62 190.97
M16x2    157  68.295 218.54 163.91  97.733 312.74 234.56 114.218 365.50 274.12
"""
LONG_FORM = [
    Value(
        "6",
        "bolt-torque",
        "the long form, Shigley, as cited",
        {"thread": "M12x1.75", "friction": friction, "head": "16.6", "hole": "13.5"},
        {"by_friction": torque, "k_friction": factor},
        0.03,
    )
    for friction, torque, factor in (("0.10", 60.79, 0.138), ("0.14", 81.03, 0.184), ("0.18", 101.26, 0.230))
]
TOPIC_6 = (
    LONG_FORM
    + [
        Value(
            "6",
            "bolt-torque",
            ISO_898,
            {"thread": thread, "grade": grade},
            {"area": area} | three,
            0.006 * three["high"],
        )
        for thread, area, rest in (
            (line.split()[0], float(line.split()[1]), [float(word) for word in line.split()[2:]])
            for line in _BOLTS.strip().splitlines()
        )
        for at, grade in ((0, "8.8"), (3, "10.9"), (6, "12.9"))
        for three in [dict(zip(("preload", "high", "low"), rest[at : at + 3], strict=True))]
    ]
    + [
        *(
            Value("6", "bolt-torque", "ISO 898-1, unrounded", {"thread": thread}, {"area": area}, 6e-5)
            for thread, area in (
                ("M12x1.25", 92.0718),
                ("M12x1.5", 88.1260),
                ("M14x1.5", 124.5455),
                ("M10x1.25", 61.1986),
            )
        ),
        *(
            Value(
                "6",
                "bolt-torque",
                "published proof loads",
                {"thread": thread, "grade": grade},
                {"proof": proof},
                0.006 * proof,
            )
            for thread, grade, proof in (
                ("M8", "8.8", 21.2),
                ("M10", "8.8", 33.7),
                ("M12", "8.8", 48.9),
                ("M12", "10.9", 70.0),
                ("M14", "8.8", 66.7),
            )
        ),
        Value("6", "bolt-torque", "SAE J429 (from memory)", {"thread": "7/16-20"}, {"area": 76.59}, 6e-3),
        Value(
            "6",
            "bolt-torque",
            "SAE J429 (from memory)",
            {"thread": "1/2-20", "grade": "grade 8"},
            {"area": 103.20, "preload": 14.3957 * 4.4482216, "torque": 162.65},
            6e-3,
        ),
        Value(
            "6", "bolt-torque", "a published worked example", {"thread": "M12", "asked": "82.14"}, {"share": 70}, 0.05
        ),
        Value("6", "bolt-torque", "ISO 68-1", {"thread": "M12x1.25"}, {"flanks": 11.18810, "nut_core": 10.64684}, 6e-5),
    ]
)
