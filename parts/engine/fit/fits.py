"""A want beside what is offered: fits, does not because, or not known and what is missing."""

from collections.abc import Sequence

from parts.engine.fit.hub import bore_verdict, pattern_verdict, seat_verdict, worst
from parts.engine.fit.interface import Electrical, Hub, Interface, Threaded, Wheel
from parts.engine.fit.numbers import plain
from parts.engine.fit.strength import strength_verdict
from parts.engine.fit.thread import EXTERNAL, INTERNAL, OTHER_SIDE, Thread
from parts.engine.fit.together import together
from parts.engine.fit.verdict import DOES_NOT, FITS, NOT_KNOWN, FitVerdict

NAMES = {EXTERNAL: "bolt", INTERNAL: "nut"}
NO_BORE = FitVerdict(NOT_KNOWN, "Nobody said what spigot it must go over.", unasked=True)
NO_SPIGOT = FitVerdict(NOT_KNOWN, "Nobody said what bore must go over it.", unasked=True)
NO_SEAT = FitVerdict(NOT_KNOWN, "Nobody said which seat its nuts must have.", unasked=True)
NOUNS = {"thread": "thread", "wheel": "bolt pattern", "hub": "hub", "electrical": "voltage"}


def fits(want: Interface, offered: Interface) -> FitVerdict:
    """Whether what is offered answers the want; what the want leaves open is not asked.

    The want describes the part looked for: a nut must go onto the bolt that its wanted thread
    names, a wheel with bore 66.6 must go over a spigot of 66.6, a hub with spigot 66.6 into such
    a bore. A wheel or hub wanted without its bore or its seat is not known. Source: the tables of
    threads and of wheels on hubs, common practice.
    """
    if isinstance(want, Threaded) and isinstance(offered, Threaded):
        verdicts = [_thread(want.thread, offered.thread)]
        if want.strength:
            verdicts.append(strength_verdict(want.strength, offered.strength))
    elif isinstance(want, Wheel) and isinstance(offered, Wheel):
        verdicts = [pattern_verdict(offered.pattern, want.pattern)]
        verdicts.append(NO_BORE if want.bore is None else bore_verdict(offered.bore, want.bore))
    elif isinstance(want, Hub) and isinstance(offered, Hub):
        verdicts = [pattern_verdict(offered.pattern, want.pattern)]
        verdicts.append(NO_SPIGOT if want.spigot is None else bore_verdict(want.spigot, offered.spigot))
    elif isinstance(want, Electrical) and isinstance(offered, Electrical):
        return _electrical(want, offered)
    else:
        return FitVerdict(NOT_KNOWN, f"Its {NOUNS[want.kind]} is not written down.")
    if want.seat:
        verdicts.append(seat_verdict(want.seat, offered.seat))
    elif not isinstance(want, Threaded):
        verdicts.append(NO_SEAT)
    return worst(verdicts)


def fits_all(wants: Sequence[Interface], offered: Sequence[Interface]) -> FitVerdict:
    """Every want answered by one of the interfaces offered; not known when nothing was asked."""
    if not wants:
        return FitVerdict(NOT_KNOWN, "Nobody wrote down what it must fit.")
    return worst([_best(want, offered) for want in wants])


def _best(want: Interface, offered: Sequence[Interface]) -> FitVerdict:
    verdicts = [fits(want, interface) for interface in offered if interface.kind == want.kind]
    if not verdicts:
        return FitVerdict(NOT_KNOWN, f"Its {NOUNS[want.kind]} is not written down.")
    return min(verdicts, key=lambda verdict: (verdict.rank, not verdict.trap))


def _thread(want: Thread, offered: Thread) -> FitVerdict:
    if not want.side and want.form == offered.form:
        return FitVerdict(FITS, f"Its thread is {offered}.")
    if want.side and offered.side and want.side != offered.side:
        said, asked = (NAMES[thread.side] for thread in (offered, want))
        return FitVerdict(DOES_NOT, f"It is a {said}, {offered}: a {asked} is wanted.")
    partner = Thread(*want.form).on(OTHER_SIDE[want.side or offered.side])
    return together(partner, offered)


def _electrical(want: Electrical, offered: Electrical) -> FitVerdict:
    verdicts = []
    if want.volts is not None:
        said = f"{plain(want.volts)} V"
        if offered.volts is None:
            verdicts.append(FitVerdict(NOT_KNOWN, "Its voltage is not written down."))
        elif offered.volts != want.volts:
            verdicts.append(FitVerdict(DOES_NOT, f"It is for {plain(offered.volts)} V, not {said}."))
        else:
            verdicts.append(FitVerdict(FITS, f"It is for {said}."))
    if want.connector:
        if not offered.connector:
            verdicts.append(FitVerdict(NOT_KNOWN, "Its connector is not written down."))
        elif offered.connector.casefold() != want.connector.casefold():
            said = f"It has {offered.connector}, not {want.connector}."
            verdicts.append(FitVerdict(NOT_KNOWN, f"{said} Connectors are compared by their words alone."))
        else:
            verdicts.append(FitVerdict(FITS, f"It has {offered.connector}."))
    return worst(verdicts)
