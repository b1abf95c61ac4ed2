"""From a joint as it stands to what the verdict is told of it."""

from collections.abc import Collection
from datetime import datetime
from typing import Protocol

from builds.joints.engine.joints import JointState
from builds.verdict.engine.records import JointFact


class KnownJoint(Protocol):
    """A joint of a car: its id and name, whether lives hang on it, what opens it (slugs)."""

    pk: int
    name: str
    safety: bool
    opened_by: Collection[str]
    systems: Collection[str]


def joint_fact(joint: KnownJoint, standing: JointState, since: datetime | None) -> JointFact:
    """Loose, or marked for nothing, is slack where no life hangs on it; `since` is its last mark."""
    state = "slack" if standing.state in ("loose", "void") and not joint.safety else standing.state
    return JointFact(joint.pk, joint.name, state, standing.words, tuple(joint.opened_by), tuple(joint.systems), since)
