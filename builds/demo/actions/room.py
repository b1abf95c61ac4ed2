"""What every room of the demo garage is filled from: its file, the cars and the people by name."""

import tomllib
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from typing import Any

from garage.models import Garage, Membership, Vehicle

FOLDER = Path(__file__).parents[1]


class DemoRoom:
    """One filling; `file` names its data in the folder of the demo, cars and people go by name.

    What each method is `given` is what the file says of it.
    """

    file: str

    def __init__(
        self,
        garage: Garage,
        cars: Mapping[str, Vehicle],
        members: Mapping[str, Membership],
        *,
        by: Membership,
        at: datetime,
    ) -> None:
        self.garage, self.cars, self.members, self.by, self.at = garage, cars, members, by, at
        self.data: dict[str, Any] = tomllib.loads((FOLDER / self.file).read_text(encoding="utf-8"))

    def fill(self) -> None:
        raise NotImplementedError
