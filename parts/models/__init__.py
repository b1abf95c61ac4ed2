"""Parts, places and the ledger of moves."""

from parts.models.move import Balance, LedgerError, Move
from parts.models.part import Part
from parts.models.place import Place

__all__ = ["Balance", "LedgerError", "Move", "Part", "Place"]
