"""By which a phone tells whose pages and writes it holds; says nothing to anybody else."""

import hashlib

from garage.models import Membership


def mark_of(member: Membership) -> str:
    return hashlib.sha256(f"{member.garage_id} {member.pk}".encode()).hexdigest()[:16]
