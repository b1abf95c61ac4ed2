"""The server's access log, if one is kept: as gunicorn writes it, without tokens."""

from typing import Any

from gunicorn.glogging import Logger

from garage.logs import masked


class MaskedLogger(Logger):
    """Whoever reads the log cannot open what a link opens."""

    def atoms(self, *args: Any, **kwargs: Any) -> dict[str, Any]:
        parts_of_line: dict[str, Any] = super().atoms(*args, **kwargs)
        return {name: masked(value) if isinstance(value, str) else value for name, value in parts_of_line.items()}
