"""Wire size: what a conductor loses, what it may carry, and the smallest that does."""

import math
from dataclasses import dataclass

from builds.bench.frame.drawing import Drawing, Label, Ring
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked
from builds.bench.wiring.copper import METRIC, SIZES, Size, area_for_drop, voltage_drop
from builds.bench.wiring.fuses import CONTINUOUS, fuse_for

ENGINE, ELSEWHERE = "engine", "elsewhere"


def may_carry(size: Size, place: str) -> float:
    """A, in the worst place that the conductor goes through; 0 where the table has none."""
    return size.inside if place == ENGINE else size.outside


@dataclass(frozen=True, slots=True)
class Feed:
    """What a conductor has to do: A over m there and back at °C, losing at most `most` V, behind a fuse of A."""

    amps: float
    metres: float
    degrees: float
    most: float
    fuse: float
    place: str

    def lost(self, size: Size) -> float:
        """V."""
        return voltage_drop(self.amps, self.metres, size, self.degrees)


def smallest(feed: Feed) -> Size | None:
    """The smallest size in mm² that loses no more than it may, and may carry what its fuse lets through."""
    enough = (size for size in METRIC if feed.lost(size) <= feed.most and may_carry(size, feed.place) >= feed.fuse)
    return next(enough, None)


def _work(given: Given, texts: Texts) -> Worked:
    amps = given["amps"]
    fuse = given.get("fuse") or fuse_for(amps)
    if fuse is None:
        raise SumError("No fuse on the list bears that for hours: divide the load.", "amps")
    metres, most = given["feed"] + given["back"], given["volts"] * given["drop"] / 100
    feed = Feed(amps, metres, given["degrees"], most, fuse, texts["place"])
    wanted = smallest(feed)
    size = SIZES[texts["size"]] if texts["size"] != "find" else wanted
    if size is None:
        raise SumError("No size up to 25 mm² does: shorten the run, divide the load, or allow a larger drop.", "amps")
    lost, least = feed.lost(size), area_for_drop(amps, metres, most, feed.degrees)
    carries = may_carry(size, texts["place"])
    answers = (
        Answer("size", "Conductor", size.area, "mm²", 2, words="" if size in METRIC else size.name),
        Answer("lost", "Lost on the way there and back", lost, "V", 3),
        Answer("share", "Lost, of the supply", 100 * lost / given["volts"], "%", 2),
        Answer("heat", "Heat in the conductor", lost * amps, "W", 1),
        Answer("least", "Plain copper for the drop allowed, at least", least, "mm²", 2),
        Answer("carries", "May carry there", carries or None, "A", 0, words="" if carries else "not in the table"),
        Answer("fuse", "Fuse", fuse, "A", 1),
        Answer(
            "wanted",
            "Smallest size that does",
            wanted.area if wanted else None,
            "mm²",
            2,
            words="" if wanted else "none up to 25 mm²",
        ),
    )
    return Worked(answers, _drawing(size, wanted), tuple(_warnings(feed, size)))


def _warnings(feed: Feed, size: Size) -> list[str]:
    said, fuse, lost, carries = [], feed.fuse, feed.lost(size), may_carry(size, feed.place)
    if lost > feed.most:
        said.append(f"{size.name} loses {lost:.2f} V, more than the {feed.most:.2f} V allowed.")
    if carries and fuse > carries:
        said.append(f"A fuse of {fuse:g} A lets through more than the {carries:g} A that {size.name} may carry there.")
    if not carries:
        said.append(f"What {size.name} may carry is not in the table: take the cable maker's figure.")
    if feed.amps > CONTINUOUS * fuse:
        said.append(f"A fuse of {fuse:g} A does not bear {feed.amps:g} A for hours: three quarters of it is the most.")
    return said


def _drawing(size: Size, wanted: Size | None) -> Drawing:
    """Copper cross-sections side by side, ten times as large as they are."""
    shapes: list[Ring | Label] = []
    x = 0.0
    names = [size] if wanted in (None, size) else [size, wanted]
    for one in names:
        across = 10 * 2 * math.sqrt(one.area / math.pi)
        x += across / 2
        shapes += [
            Ring((x, 0), across / 2, "strong" if one is wanted else "part"),
            Label((x, across / 2 + 14), one.name),
        ]
        x += across / 2 + 30
    words = " and ".join(f"{one.name}, {2 * math.sqrt(one.area / math.pi):.1f} mm of copper across" for one in names)
    return Drawing("Copper of the conductor, ten times as large", f"{words}.", tuple(shapes))


SUM = Sum(
    slug="wire-size",
    title="Wire size",
    question="Which conductor does this load want, and what is lost on the way?",
    asks=(
        Ask("amps", "Load", "A", "25", above=0, most=400),
        Ask("feed", "Length of the feed", "m", "3.5", above=0, most=50),
        Ask("back", "Length of the earth", "m", "1.5", least=0, most=50, note="0 where the shell carries it back."),
        Ask("volts", "Supply", "V", "13.8", above=0, most=60, default="13.8"),
        Ask(
            "drop",
            "Drop allowed",
            "%",
            "5",
            above=0,
            most=20,
            default="3",
            note="3 % pump or control unit, 5 % fan, 10 % lamp.",
        ),
        Ask("degrees", "Conductor's temperature", "°C", "60", least=-40, most=150, default="60"),
        Ask(
            "size",
            "Conductor",
            choices=(("find", "Find the smallest"), *((slug, size.name) for slug, size in SIZES.items())),
            default="find",
        ),
        Ask("place", "Goes through", choices=((ENGINE, "The engine bay"), (ELSEWHERE, "Elsewhere")), default=ENGINE),
        Ask("fuse", "Fuse", "A", least=1, most=400, needed=False, note="Left empty: the smallest that bears the load."),
    ),
    work=_work,
    formula=(
        "drop = load × (feed + earth) × ohms per metre × [1 + 0.00393 (temperature − 20)]",
        "load ≤ 0.75 × fuse; fuse ≤ what the conductor may carry in its worst place",
    ),
    source="IEC 60228 class 5 (mm²); ASTM B258 (AWG); ABYC E-11 and 33 CFR 183.425 (what it may carry)",
    assumes="One conductor with 105 °C insulation, plain copper, sound crimps. A return through the shell is not free.",
    limits="Bundles carry less. Sizes from 0.5 to 25 mm² and 20 to 2 AWG. Ratios of fuse and load: common practice.",
    caution="The fuse protects the wire: fit it within 150 to 200 mm of the battery. The cable maker's figure wins.",
    offered=Offered(systems=("electrics",), readings=("earths",), checks=("size", "fuse", "lost")),
)
