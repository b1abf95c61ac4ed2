"""Wheel on hub: whether pattern, bore and seat go together, and what a spacer leaves of the spigot."""

from builds.bench.frame.drawing import Drawing, Label, Line, Ring
from builds.bench.frame.sums import Answer, Ask, Given, Offered, Sum, SumError, Texts, Worked
from parts.engine.fit.hub import wheel_on_hub
from parts.engine.fit.interface import SEATS, Hub, Wheel, hole
from parts.engine.fit.numbers import FitError
from parts.engine.fit.pattern import Pattern, parse_pattern
from parts.engine.fit.verdict import DOES_NOT

NOT_KNOWN = "unknown"
SEAT = ((NOT_KNOWN, "Not known"), *SEATS.items())


def _pattern(texts: Texts, slug: str) -> Pattern:
    try:
        return parse_pattern(texts[slug])
    except FitError as refusal:
        raise SumError(str(refusal), slug) from None


def _work(given: Given, texts: Texts) -> Worked:
    bore, spigot, spacer = given.get("bore"), given.get("spigot"), given["spacer"]
    seats = ["" if texts[slug] == NOT_KNOWN else texts[slug] for slug in ("wheel_seat", "nut_seat")]
    wheel = Wheel(_pattern(texts, "wheel"), None if bore is None else hole(f"{bore:.3f}", "bore"), seats[0])
    hub = Hub(_pattern(texts, "hub"), None if spigot is None else hole(f"{spigot:.3f}", "spigot"), seats[1])
    verdict = wheel_on_hub(hub, wheel)
    stands = given.get("stands")
    answers = (
        Answer("verdict", "Wheel and hub", None, words=f"{verdict.label}. {verdict.because}"),
        Answer(
            "clearance",
            "Bore is larger than the spigot by",
            None if bore is None or spigot is None else bore - spigot,
            "mm",
            2,
            words="" if bore is not None and spigot is not None else "not known",
        ),
        Answer(
            "left",
            "Spigot that is left outside the spacer",
            None if stands is None else max(0.0, stands - spacer),
            "mm",
            1,
            words="" if stands is not None else "not known: nobody measured it",
        ),
    )
    said = [verdict.because] if verdict.label == DOES_NOT or verdict.trap else []
    if stands is not None and spacer >= stands:
        said.append("The spacer is as thick as the spigot stands out: it needs a spigot of its own.")
    return Worked(answers, _drawing(hub.pattern, wheel.pattern, bore, spigot), tuple(said))


def _drawing(hub: Pattern, wheel: Pattern, bore: float | None, spigot: float | None) -> Drawing:
    """Both circles of studs from ahead, the hub's bold, with bore and spigot where they are known."""
    shapes: list[Line | Ring | Label] = [
        Ring((0, 0), float(hub.pcd) / 2, "strong"),
        Ring((0, 0), float(wheel.pcd) / 2, "part"),
        *(Ring((0, 0), across / 2, look) for across, look in ((spigot, "strong"), (bore, "part")) if across),
        Label((0, -float(max(hub.pcd, wheel.pcd)) / 2 - 4), f"hub {hub}, wheel {wheel}"),
    ]
    return Drawing("Hub and wheel from outside", f"The hub {hub} bold, the wheel {wheel} thin.", tuple(shapes))


SUM = Sum(
    slug="wheel-on-hub",
    title="Wheel on hub",
    question="Does this wheel go onto this hub, and does it sit on its spigot?",
    asks=(
        Ask("hub", "Pattern of the hub", words=True, example="5x114.3"),
        Ask("wheel", "Pattern of the wheel", words=True, example="5x112"),
        Ask("spigot", "Spigot of the hub, across", "mm", "60.1", above=0, most=300, needed=False),
        Ask("bore", "Bore of the wheel", "mm", "66.6", above=0, most=300, needed=False),
        Ask("nut_seat", "Seat of the nuts", choices=SEAT, default=NOT_KNOWN),
        Ask("wheel_seat", "Seat in the wheel", choices=SEAT, default=NOT_KNOWN),
        Ask("stands", "Spigot stands out of the hub by", "mm", "10", above=0, most=100, needed=False),
        Ask("spacer", "Spacer", "mm", least=0, most=100, default="0", figure="wheel_spacer"),
    ),
    work=_work,
    formula=("studs, circle and seat must be equal; bore ≥ spigot, within 0.1 mm or with a ring",),
    source="Geometry; clearance of a spigot and of a ring: common practice, no source",
    assumes="Both measured with callipers, the hub face clean.",
    limits="Says nothing of the caliper, nor of the length of thread: those are sums of their own.",
    caution="A wheel that is a little out still bolts on, and fails later. Never force one over its studs.",
    offered=Offered(readings=("track_width",), systems=("wheels",), checks=("verdict",)),
)
