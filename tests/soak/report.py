"""What a soak found, as plain tables."""

from collections.abc import Iterator

from tests.soak.run import Soak
from tests.soak.uploads import SLOW

WORST = 6


def lines(soak: Soak, kind: str) -> Iterator[str]:
    yield from _load(soak, kind)
    yield ""
    yield from _found(soak)
    yield ""
    yield from _locks(soak)
    yield ""
    yield from soak.wrong or ["Nothing is wrong."]


def _load(soak: Soak, kind: str) -> Iterator[str]:
    figures, kills = soak.figures, ", ".join(f"{many} of {what}" for what, many in soak.killed.items())
    answered = len(figures.reads) + len(figures.writes)
    yield f"{kind}: {soak.writers} writers for {soak.took:.0f} s, seed {soak.seed}"
    yield ""
    yield "| what | figure |"
    yield "| --- | --: |"
    yield f"| kills survived ({kills}) | {sum(soak.killed.values())} |"
    yield f"| whole server away, s: p50, p95 | {_of(soak.down, 0.5):.1f}, {_of(soak.down, 0.95):.1f} |"
    yield f"| requests answered, and a second | {answered}, {answered / max(soak.took, 1):.1f} |"
    yield f"| reads, ms: p50, p95 | {_ms(figures.reads, 0.5)}, {_ms(figures.reads, 0.95)} |"
    yield f"| writes, ms: p50, p95 | {_ms(figures.writes, 0.5)}, {_ms(figures.writes, 0.95)} |"
    yield f"| cut off and sent again | {figures.cut} |"
    yield f"| answered 503, and sent again | {figures.waited} |"
    yield f"| second sending given the first answer | {figures.replayed} |"
    yield f"| refused in words | {soak.refused.total()} |"
    if soak.ready:
        worst, name = max(soak.ready), f"/health/live/ while locked for {soak.locked:.0f} s"
        yield f"| {name}, ms: p50, most | {_ms(soak.ready, 0.5)}, {worst * 1000:.0f} |"
    if soak.slow:
        came, what = soak.uploads, f"while {SLOW} pictures were on their way for {soak.slow:.0f} s"
        yield f"| reads {what}, ms: p50, most | {_ms(came.reads, 0.5)}, {max(came.reads, default=0) * 1000:.0f} |"
        yield f"| writes {what}, ms: p50, most | {_ms(came.writes, 0.5)}, {max(came.writes, default=0) * 1000:.0f} |"
        yield f"| most memory of a web process after five photos of 40 million pixels, MB | {came.memory:.0f} |"
    for what, megabytes in soak.memory.items():
        yield f"| most memory of {what}, MB | {megabytes:.0f} |"


def _found(soak: Soak) -> Iterator[str]:
    yield "| write | answered as done | found | too many |"
    yield "| --- | --: | --: | --: |"
    for kind, row in soak.found.items():
        yield f"| {kind} | {' | '.join(map(str, row))} |"
    total = [sum(column) for column in zip(*soak.found.values(), strict=True)]
    yield f"| all | {' | '.join(map(str, total))} |"


def _locks(soak: Soak) -> Iterator[str]:
    """Those that held it longest, at their 95th in a hundred."""
    yield "| lock | times | held, ms: p50 | p95 | most | waited, ms: p95 |"
    yield "| --- | --: | --: | --: | --: | --: |"
    everything = [line for kept in soak.locks.values() for line in kept]
    worst = sorted(soak.locks.items(), key=lambda pair: -_of([held for _, held in pair[1]], 0.95))
    for name, kept in [("all", everything), *worst[:WORST]]:
        held, waited = [line[1] for line in kept], [line[0] for line in kept]
        yield (
            f"| {name} | {len(kept)} | {_ms(held, 0.5)} | {_ms(held, 0.95)} | {max(held, default=0) * 1000:.0f}"
            f" | {_ms(waited, 0.95)} |"
        )


def _of(times: list[float], share: float) -> float:
    ordered = sorted(times)
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))] if ordered else 0.0


def _ms(times: list[float], share: float) -> str:
    return f"{_of(times, share) * 1000:.0f}"
