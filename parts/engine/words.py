"""Amounts of a part in words."""


def amount_words(unit: str, quantity: int) -> str:
    """`3 pieces`, `1 piece`, `500 ml`; `unit` is piece, ml, g or mm."""
    if unit == "piece":
        return "1 piece" if quantity == 1 else f"{quantity} pieces"
    return f"{quantity} {unit}"
