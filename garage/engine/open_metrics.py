"""Figures as text in the format OpenMetrics 1.0 (its specification: families, samples, `# EOF`)."""

from collections.abc import Iterable
from dataclasses import dataclass, field

CONTENT_TYPE = "application/openmetrics-text; version=1.0.0; charset=utf-8"


@dataclass(frozen=True)
class Sample:
    """`end` is what a sample adds to the name of its family, such as `_total` for a counter."""

    value: float
    end: str = ""
    labels: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Family:
    """`kind` is gauge, counter, histogram or info; `unit` is the end of the name, where it has one."""

    name: str
    kind: str
    said: str
    samples: tuple[Sample, ...]
    unit: str = ""


def gauge(name: str, said: str, value: float | None, unit: str = "") -> Family:
    """One figure; with None, which is not known, the family stands without a sample."""
    return Family(name, "gauge", said, () if value is None else (Sample(value),), unit)


def text_of(families: Iterable[Family]) -> str:
    """The whole of an answer. Raises ValueError for a name that does not end with its unit."""
    lines = []
    for family in families:
        if family.unit and not family.name.endswith(f"_{family.unit}"):
            raise ValueError(f"{family.name} does not end with {family.unit}.")
        lines.append(f"# TYPE {family.name} {family.kind}")
        if family.unit:
            lines.append(f"# UNIT {family.name} {family.unit}")
        lines.append(f"# HELP {family.name} {_escaped(family.said)}")
        lines += [f"{family.name}{sample.end}{_labels(sample.labels)} {sample.value}" for sample in family.samples]
    return "\n".join([*lines, "# EOF", ""])


def _labels(labels: dict[str, str]) -> str:
    told = ",".join(f'{name}="{_escaped(value)}"' for name, value in labels.items())
    return f"{{{told}}}" if told else ""


def _escaped(text: str) -> str:
    return text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
