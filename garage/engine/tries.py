"""How long somebody waits after trying too often."""

from math import ceil
from typing import NamedTuple


class Backoff(NamedTuple):
    """`free` tries cost nothing; then a wait of `first` seconds, doubled up to `most`.

    After `forget` seconds without a counted try the count starts anew.
    """

    what: str
    free: int
    first: int
    most: int
    forget: int


QUARTER = 15 * 60
AT_ONCE = 60
# Common practice for a small server, no source: one person's typing errors fit in five, a
# household's in twenty, and no stranger can shut the owner out for longer than half a minute.
SIGN_IN_PAIR = Backoff("sign-in pair", free=5, first=QUARTER, most=QUARTER, forget=QUARTER)
SIGN_IN_ADDRESS = Backoff("sign-in address", free=20, first=QUARTER, most=QUARTER, forget=QUARTER)
SIGN_IN_NAME = Backoff("sign-in name", free=5, first=1, most=30, forget=QUARTER)
SHARE_GUESS = Backoff("share guess", free=30, first=60, most=QUARTER, forget=60)
CALENDAR_GUESS = Backoff("calendar guess", free=30, first=60, most=QUARTER, forget=60)
VISIT_GUESS = Backoff("visit guess", free=30, first=60, most=QUARTER, forget=60)
# A friend who changes his mind a few times is no flood.
VISIT_SAID = Backoff("visit said", free=12, first=60, most=QUARTER, forget=QUARTER)
SHARE_PHRASE = Backoff("share phrase", free=5, first=60, most=QUARTER, forget=QUARTER)
SHARE_SAID = Backoff("share said", free=12, first=60, most=QUARTER, forget=QUARTER)
PASSWORD_CHANGE = Backoff("password change", free=5, first=QUARTER, most=QUARTER, forget=QUARTER)


def counted(rule: Backoff, count: int, quiet: float) -> int:
    """What is left of `count` after `quiet` seconds without a try: all of it, or nothing.

    Nothing as well where the last one is ahead of the clock by more than tries at the same moment can be: it was set
    back, and nobody is to wait until it has caught up.
    """
    return 0 if quiet >= rule.forget or quiet < -AT_ONCE else count


def seconds_to_wait(rule: Backoff, count: int, quiet: float) -> int:
    """Whole seconds until the next try, 0 when it may be now.

    `count` tries were counted so far and the latest `quiet` seconds ago.
    """
    over = counted(rule, count, quiet) - rule.free
    if over < 0:
        return 0
    wait = min(rule.most, rule.first << min(over, 20))
    return max(0, ceil(wait - max(0.0, quiet)))
