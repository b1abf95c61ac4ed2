"""Whether somebody's own words plainly name work that opens nothing of a car. Common practice, no source."""

from functools import lru_cache

from garage.engine.cleaning_said import only_cleans
from garage.engine.names_said import NameTable
from garage.engine.systems_said import fault_said

_LIGHT = NameTable(
    {
        "light": """
            clean, clean up, wash*, wipe*, polish*, wax*, hoover*, vacuum*, shampoo*, valet*, dust, sweep*, tidy*, wash
            down, check*, inspect*, look at, look over, look for, look round, look, test*, try, measure*, read, weigh*,
            listen*, find out, photo*, draw, sketch, list, label*, mark, number, print, order*, buy, ask, phone, ring,
            call, email, book*, pay, collect, pick up, send off, quote, charge, top up, grease, oil, lubricat*, lube,
            spray wd, sticker*, decal*, vinyl, race number, touch up, stone chip, warm up, start, start up, fire up,
            idle, jump start, load, clean out, wash out, look in, put on charge, on charge, measure up, plan, decide,
            think, choose, study
        """,
        "opens": """
            off, out, in, on, fit*, new, replac*, renew*, remov*, refit*, swap*, swop*, change*, changing, drop*, pull*,
            cut*, drill*, grind*, weld*, strip*, take, took, taking, move*, moving, modif*, alter*, trim*, adjust*, set,
            bleed*, drain*, rebuil*, repair*, mend*, fix*, make*, making, undo*, unbolt*, slacken*, loosen*, tighten*,
            torque*, open*, disconnect*, let, patch*, plate*, shim*, wrap*, bend*, straighten*, split*, swap over,
            convert*, install*, mount*, bolt*, reroute*, rewir*, solder*, crimp*, do, doing, sort, shorten*, lengthen*,
            lower*, raise*
        """,
    }
)


@lru_cache(maxsize=4096)
def opens_nothing_said(text: str) -> bool:
    """Whether it only cleans, looks, orders or writes something, and nothing in it is wrong or comes off."""
    return only_cleans(text) or (_LIGHT.said(text) == {"light"} and not fault_said(text))
