"""The server's access log, if one is kept: as gunicorn writes it, without tokens and without what was asked for."""

import re
from typing import Any

from gunicorn.glogging import Logger

from garage.logs import masked

QUERY = re.compile(r"\?\S+")


class MaskedLogger(Logger):
    """Whoever reads the log cannot open what a link opens, nor see what somebody looked for."""

    def atoms(self, *args: Any, **kwargs: Any) -> dict[str, Any]:
        parts_of_line: dict[str, Any] = super().atoms(*args, **kwargs)
        said = {name: value for name, value in parts_of_line.items() if isinstance(value, str)}
        return parts_of_line | {name: QUERY.sub("?***", masked(value)) for name, value in said.items()} | {"q": ""}
