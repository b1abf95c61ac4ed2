"""When something is done by somebody's own words: once the car has run, or last of all. Common practice, no source."""

from functools import lru_cache

from garage.engine.names_said import NameTable

RAN, LAST = "ran", "last"
_WHEN = NameTable(
    {
        RAN: """
            after first run, after first session, after first drive, after first outing, after first stage, after first
            lap, after run, after session, after shakedown, after test drive, after road test, after
            test, after drive, after driving, after event, once it has run, once driven
        """,
        LAST: """
            spanner check, nut and bolt, nut and bolt check, nut bolt check, bolt check, final
            check, last check, final look, last look, once over, final once over, pre event check, pre race check
        """,
    }
)


@lru_cache(maxsize=4096)
def when_said(text: str) -> str:
    """RAN, LAST, or nothing."""
    said = _WHEN.said(text)
    return RAN if RAN in said else LAST if LAST in said else ""
