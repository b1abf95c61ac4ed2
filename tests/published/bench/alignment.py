"""Toe, thrust, caster and camber."""

from tests.published.bench.value import Value

ASINE, SHOP = (
    "the definition of toe, ISO 8855:2011 7.1.6",
    "SAE 850219, January; checked by turning a wheel about its axis",
)
STRINGS = {f"{corner}_{end}": "150" for corner in ("fl", "fr", "rl", "rr") for end in ("front", "rear")}
BOX = STRINGS | {"across": "470", "track_front": "1475", "track_rear": "1475"}
SET = {"left": "0.05", "right": "0.15", "rear_left": "0.2", "rear_right": "0.05", "target": "0.1", "per_turn": "0.69"}
TOPIC_4 = [
    Value(
        "4",
        "caster-swing",
        SHOP,
        {"turned_in": "-3.31150", "turned_out": "0.78801", "swing": "20", "inclination": "12"},
        {"arc": 5.87213},
        6e-5,
    ),
    Value("4", "toe-units", ASINE, {"difference": "2", "across": "431.8"}, {"each": 0.13269, "total": 0.26538}, 6e-6),
    Value("4", "toe-units", ASINE, {"difference": "2", "across": "431.8"}, {"total_minutes": 15.92}, 6e-3),
    Value("4", "toe-units", ASINE, {"difference": "2", "across": "630"}, {"each": 0.09095, "total": 0.18189}, 6e-6),
    Value("4", "toe-units", ASINE, {"angle": "0.2", "across": "431.8"}, {"total_mm": 1.50727}, 6e-6),
    Value("4", "toe-units", ASINE, {"angle": "0.2", "across": "630"}, {"total_mm": 2.19911}, 6e-6),
    Value(
        "4",
        "toe-units",
        "published: 0.138° a wheel",
        {"difference": "1/8 in", "across": "26 in"},
        {"each": 0.13773, "total": 0.27546},
        6e-6,
    ),
    Value("4", "toe-units", ASINE, {"difference": "1.5", "of": "one", "across": "470"}, {"each": 0.18286}, 6e-6),
    Value("4", "toe-units", ASINE, {"difference": "2", "of": "one", "across": "470"}, {"each": 0.24381}, 6e-6),
    Value("4", "toe-units", ASINE, {"difference": "-0.5", "of": "one", "across": "470"}, {"each": -0.06095}, 6e-6),
    Value("4", "toe-units", ASINE, {"angle": "0", "across": "470"}, {"resolution": 0.06095}, 6e-6),
    Value("4", "toe-units", ASINE, {"angle": "0", "across": "431.8"}, {"resolution": 0.06635}, 6e-6),
    Value("4", "string-box", ASINE, BOX | {"fl_front": "152.5", "fl_rear": "151"}, {"fl": 0.18286}, 6e-6),
    Value(
        "4",
        "string-box",
        ASINE,
        BOX | {"fl_front": "152", "fl_rear": "150", "fr_front": "149.5"},
        {"fl": 0.24381, "fr": -0.06095, "front": 0.18286},
        6e-6,
    ),
    Value(
        "4",
        "string-box",
        ASINE,
        BOX | {"fl_front": "152", "fl_rear": "152", "wheelbase": "2575"},
        {"parallel_l": 2, "yaw_l": 0.0445, "parallel_r": 0},
        6e-5,
    ),
    Value("4", "toe-setting", "thrust by a maker's workshop manual, right above 0", SET, {"thrust": 0.075}),
    Value("4", "toe-setting", "the same", SET, {"left_now": -0.025, "right_now": 0.225}),
    Value("4", "toe-setting", "the same", SET | {"rear_left": "0.1", "rear_right": "-0.1"}, {"thrust": 0.1}),
    Value(
        "4",
        "string-box",
        "the wheel stands off by thrust times the ratio",
        BOX | {"rl_front": "151.640607", "rr_front": "150.410152"},
        {"rear": 0.25, "thrust": 0.075, "wheel": 1.125},
        2e-5,
    ),
    *(
        Value(
            "4",
            "caster-swing",
            SHOP,
            {"turned_in": first, "turned_out": second, "swing": swing, "inclination": lean},
            {"exact": exact, "shop": shop, "factor": factor},
            3e-5,
        )
        for first, second, swing, lean, exact, shop, factor in (
            ("-3.31150", "0.78801", "20", "12", 6.0, 5.99309, 1.46190),
            ("-0.43263", "1.12321", "15", "10", 3.0, 3.00565, 1.93185),
        )
    ),
    Value("4", "caster-swing", SHOP, {"turned_in": "-4.2", "turned_out": "0.1"}, {"shop": 6.28618}, 6e-6),
    Value(
        "4", "caster-swing", SHOP, {"turned_in": "-4.2", "turned_out": "0.1", "swing": "10"}, {"factor": 2.87939}, 6e-6
    ),
    Value("4", "camber", "geometry", {"left_top": "12", "right": "0"}, {"left": -1.52807}, 6e-6),
    Value(
        "4", "camber", "geometry", {"left": "-2.35", "right": "-1.75", "slope": "0.3"}, {"left": -2.65, "right": -1.45}
    ),
    Value(
        "4", "camber", "geometry", {"left": "0", "right": "0", "rise": "2"}, {"left": -0.07639, "right": 0.07639}, 6e-6
    ),
]
