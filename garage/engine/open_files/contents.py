"""What the open files of a garage leave out: tables, and columns of those that are in, each with why."""

from garage.engine.backup import left_out

GUIDE = "OPEN_FILES.md"

LEFT_OUT = left_out.LEFT_OUT | {
    "garage_receipt": "answers that this server gave to buttons: the other server draws its own",
    "builds_plan": "worked out anew by the first page that shows one; what was promised counts from then on",
    "builds_search": "searches for a better plan, which belong to the plans",
    "builds_newswish": "mail that somebody asked this server for: whoever wants it asks the other one",
    "builds_calendarfeed": "calendar links open what they show: whoever wants one makes one there",
    "builds_calendartold": "what calendar links told last, which belongs to them",
}

OPENS_A_DOOR = "opens a door to whoever has it"
WITHHELD = {
    "garage_person": {
        "password": "whoever comes along signs in by a one-time link",
        "last_login": "of this server",
        "sessions_from": "of this server",
    },
    "garage_share": {"digest": OPENS_A_DOOR, "tail": OPENS_A_DOOR, "phrase": OPENS_A_DOOR},
    "garage_visitlink": {"digest": OPENS_A_DOOR, "tail": OPENS_A_DOOR},
    "builds_calendarfeed": {"digest": OPENS_A_DOOR, "tail": OPENS_A_DOOR},
}

# Left out as well unless they are asked for.
EMAILS = {"garage_person": {"email": "left out unless asked for"}}

# A link without its secret opens nothing: it stands as ended, at the moment at which the files were made.
ENDED = {"garage_share": "revoked_at", "garage_visitlink": "revoked_at"}


def withheld(table: str, *, emails: bool) -> dict[str, str]:
    """The columns of a table that are left out, each with why."""
    return WITHHELD.get(table, {}) | ({} if emails else EMAILS.get(table, {}))
