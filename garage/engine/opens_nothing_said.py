"""Whether somebody's own words plainly name work that opens nothing of a car. Common practice, no source."""

from functools import lru_cache

from garage.engine.cleaning_said import only_cleans
from garage.engine.names_said import NameTable
from garage.engine.systems_said import fault_said

_LIGHT = NameTable(
    {
        "light": """
            clean, clean up, clean out, wash, washed, washing, wash down, wash out, wipe, wipe down, wiped, polish,
            polished, polishing, wax, waxed, hoover, vacuum, shampoo, valet, sweep, tidy, tidy up, check, checked,
            checking, check over, inspect*, look, look at, look over, look for, look round, look in, test, tested, try,
            measure, measured, measuring, read, weigh, listen, listen to, photo, photos, photograph*, sketch, label,
            labels, order, ordered, buy, ask, phone, call, email, book, pay, collect, pick up, quote, charge, on charge,
            put on charge, top up, grease, lubricat*, lube, sticker*, decal*, vinyl, race number, touch up, warm up,
            start up, fire up, jump start, decide, choose, study
        """,
        "opens": """
            off, out, in, on, fit*, new, replac*, renew*, remov*, refit*, swap*, swop*, change*, changing, drop*, pull*,
            cut*, drill*, grind*, weld*, strip*, take, took, taking, move*, moving, modif*, alter*, trim*, adjust*, set,
            bleed*, drain*, rebuil*, repair*, mend*, fix*, make*, making, undo*, unbolt*, slacken*, loosen*, tighten*,
            torque*, open*, disconnect*, let, patch*, plate*, shim*, wrap*, bend*, straighten*, split*, convert*,
            install*, mount*, bolt*, reroute*, rewir*, solder*, crimp*, do, doing, sort, shorten*, lengthen*, lower*,
            raise*, check valve, check strap, check link, charge pipe, charge cooler, charge air, grease nipple, grease
            cap, grease seal, wax stat, vacuum pump, vacuum hose, vacuum line, read out, test port, label plate, wash
            bottle, wash jet, wash pump
        """,
    }
)


@lru_cache(maxsize=4096)
def opens_nothing_said(text: str) -> bool:
    """Whether it only cleans, looks, orders or writes something, and nothing in it is wrong or comes off."""
    return only_cleans(text) or (_LIGHT.said(text) == {"light"} and not fault_said(text))
