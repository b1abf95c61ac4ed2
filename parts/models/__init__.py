"""Parts, places, the ledger of moves, and sheets on their way to the shelf."""

from parts.models.batch import Batch, BatchRow
from parts.models.move import Balance, LedgerError, Move
from parts.models.part import Part
from parts.models.photo import PartPhoto
from parts.models.place import Place

__all__ = ["Balance", "Batch", "BatchRow", "LedgerError", "Move", "Part", "PartPhoto", "Place"]
