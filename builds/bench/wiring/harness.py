"""Harness: what all loads draw together, and what the alternator and the battery make of it."""

from builds.bench.frame.drawing import Drawing, Label, Line
from builds.bench.frame.lines import named_figures
from builds.bench.frame.sums import Answer, Ask, Column, Given, Offered, Sum, SumError, Table, Texts, Worked
from builds.bench.wiring.fuses import fuse_for


def _work(given: Given, texts: Texts) -> Worked:
    loads = named_figures(texts["loads"], "A", "loads")
    if not loads or any(amps < 0 for _, amps in loads):
        raise SumError("Write at least one load, none of them below 0 A.", "loads")
    total = sum(amps for _, amps in loads)
    spare = given["alternator"] - total
    share = given["battery"] * given["usable"] / 100
    lasts = share / -spare if spare < 0 else None
    answers = (
        Answer("total", "All together", total, "A", 1),
        Answer("spare", "Alternator has left over", spare, "A", 1),
        Answer("alone", "The battery alone bears it for", share / total if total else None, "h", 2),
        Answer(
            "lasts", "The battery makes up the rest for", lasts, "h", 2, words="" if lasts else "as long as it charges"
        ),
    )
    rows = tuple((name, amps, fuse_for(amps) or "none on the list") for name, amps in loads)
    table = Table("Each load", (Column("Load"), Column("Draws", "A", 1), Column("Fuse", "A", 1)), rows)
    warnings = (
        (f"The loads draw {-spare:.1f} A more than the alternator gives: the battery runs down.",) if spare < 0 else ()
    )
    return Worked(answers, _bars(loads, total, given["alternator"]), warnings, table)


def _bars(loads: list[tuple[str, float]], total: float, alternator: float) -> Drawing:
    """Loads end to end above the alternator, in the same scale."""
    longest = max(total, alternator, 1)
    shapes: list[Line | Label] = []
    x = 0.0
    for _, amps in loads:
        end = x + 100 * amps / longest
        shapes.append(Line(((x, 0), (end, 0), (end, 10), (x, 10)), "part", closed=True))
        x = end
    end = 100 * alternator / longest
    shapes.append(
        Line(((0, 18), (end, 18), (end, 28), (0, 28)), "good" if alternator >= total else "stop", closed=True)
    )
    shapes += [
        Label((0, -3), f"Loads {total:.1f} A", "start"),
        Label((0, 36), f"Alternator {alternator:.0f} A", "start"),
    ]
    return Drawing(
        "Loads and alternator", f"Loads of {total:.1f} A over an alternator of {alternator:.0f} A.", tuple(shapes)
    )


SUM = Sum(
    slug="harness",
    title="Harness and alternator",
    question="What do all loads draw, and does the alternator bear it?",
    asks=(
        Ask(
            "loads",
            "Loads that run together",
            lines=True,
            what_if=True,
            example="Fuel pump 8 A\nFan 20 A\nControl unit and coils 12 A\nLamps 11 A",
            note="A name and its amperes, one a line; one that begins with # is left out.",
        ),
        Ask(
            "alternator",
            "Alternator, at the engine speed it is driven at",
            "A",
            "70",
            least=0,
            most=400,
            figure="alternator",
        ),
        Ask("battery", "Battery, ampere-hours", "", "44", above=0, most=400, figure="battery"),
        Ask("usable", "Of that, to be used", "%", "50", above=0, most=100, default="50"),
    ),
    work=_work,
    formula=("left over = alternator − sum of the loads", "hours = ampere-hours × part used / amperes it is short"),
    source="Charge and current; half of a starter battery is all that it should give (common practice, no source)",
    assumes="Loads as they draw running, all at once; an alternator at idle gives far less than its plate says.",
    limits="No inrush, no ageing, no cold: a battery at 0 °C gives about a fifth less (from memory).",
    caution="Battery cables need a master switch that stops the engine too, if the rules ask. Try it running.",
    offered=Offered(systems=("electrics",), readings=("master_switch",), checks=("total", "spare")),
)
