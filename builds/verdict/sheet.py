"""From the head that a loader knows to the frame of a sheet."""

from builds.verdict.pages import SheetHead
from garage.sheets.frame import Running


def running(head: SheetHead, title: str, *facts: str) -> Running:
    return Running(
        title=title,
        verdict=head.verdict,
        warning="",
        garage=head.garage,
        computed=head.computed,
        facts=tuple(filter(None, facts)),
        foot=head.standing,
        address=head.address,
    )
