"""What people type into forms, where several tests of a whole day need it."""

FRONT_TOE = {
    "value_fl": "0.05",
    "value_fr": "0.10",
    "instrument": "string box",
    "fuel_ml": "20",
    "driver": "aboard",
    "front_pa": "1.9",
    "rear_pa": "1.8",
    "floor": "levelled",
}
