"""What every page shows of the fleet."""

from typing import Any

from django.http import HttpRequest


def key_board(request: HttpRequest) -> dict[str, Any]:
    return {}
