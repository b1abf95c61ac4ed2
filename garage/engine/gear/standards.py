"""Standards that labels name, as data: what their date means and how long it is held good."""

from dataclasses import dataclass

from garage.engine.gear.rules import DateRule
from garage.engine.vocabulary import by_slug

CAUTION = "Event rules vary and change each year: the organiser's rule and the label decide, not this app."


@dataclass(frozen=True, slots=True)
class Standard:
    """`meaning` of the date on its label; `life` where the label prints no end of its own."""

    slug: str
    kind: str
    label: str
    meaning: str
    life: DateRule | None = None
    note: str = ""


# Each line names where its figure was read, in words a search finds again.
STANDARDS: dict[str, Standard] = by_slug(
    [
        # Webbing not over 2 years from manufacture: SFI specification note on docslib.org. Clubs
        # read the same label as 2 years exact, 31 December of year 2, or of year 5.
        Standard(
            "sfi-16",
            "belts",
            "SFI 16.1 or 16.5",
            "made",
            DateRule("exact", 2),
            "Clubs read this label in three ways: set the event's own rule.",
        ),
        # Valid to 31 December of the label's year: naroescapemotorsports.com. Not accepted for
        # Appendix J cars from 1 January 2023: hscc.org.uk.
        Standard(
            "fia-8853-98",
            "belts",
            "FIA 8853/98 or 8854/98",
            "until",
            note="8853/98 has been withdrawn for many cars since 2023: ask the organiser.",
        ),
        # Label's year, 31 December: calltogrid.com. One national body once allowed 10 years.
        Standard("fia-8853-2016", "belts", "FIA 8853-2016", "until"),
        # 5 years, by three generations of label: clubmanmotorsport.com and cmmcs.co.uk; a
        # national body grants 2 years more in some disciplines.
        Standard(
            "fia-8855-1999",
            "seat",
            "FIA 8855-1999",
            "made",
            DateRule("end_of_month", 5),
            "A newer label says what it is not valid after: then choose that.",
        ),
        # 10 years: tillett.co.uk.
        Standard("fia-8862-2009", "seat", "FIA 8862-2009", "made", DateRule("end_of_month", 10)),
        # "Not valid after"; 10 years from memory, so the label alone decides.
        Standard("fia-8855-2021", "seat", "FIA 8855-2021", "until"),
        # Current and previous standard accepted, about 10 years, varying: windingroad.com; one
        # club takes SA2015 to the end of 2026: trackguys.com. Snell itself suggests 5 years.
        Standard(
            "snell-sa",
            "helmet",
            "Snell SA (the year on the sticker)",
            "made",
            DateRule("end_of_year", 10),
            "About two issues of the standard are accepted, 5 years is the maker's advice.",
        ),
        # Recertified every 5 years: bmwccaclubracing.com.
        Standard("sfi-38", "head_restraint", "SFI 38.1", "made", DateRule("exact", 5)),
        # Recertified every 2 years: na-motorsports.com.
        Standard("sfi-27", "window_net", "SFI 27.1", "made", DateRule("exact", 2)),
        # Maker's interval or 24 months, whichever is sooner: monoposto.co.uk.
        Standard(
            "serviced-24-months",
            "extinguisher",
            "Serviced, 24 months at most",
            "serviced",
            DateRule("exact", 2),
            "The maker's interval counts if it is shorter; a gauge in the green is no date.",
        ),
        # 5 years, recertified once to 7: na-motorsports.com.
        Standard(
            "fia-ft3",
            "fuel_cell",
            "FIA FT3",
            "made",
            DateRule("exact", 5),
            "Recertified once, it may go to 7 years: then enter what the new label says.",
        ),
        # Week and year; no general expiry: maker's handbook on auto.manualsonline.com.
        Standard("tyre-code", "tyres", "Week and year on the sidewall", "made"),
    ]
)
