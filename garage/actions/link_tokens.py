"""Tokens of links that need no account: shown once and kept nowhere; wrong guesses are counted."""

import secrets
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from garage.actions import tries
from garage.actions.sign_in import digest
from garage.engine.tries import CALENDAR_GUESS, SHARE_GUESS, VISIT_GUESS, Backoff
from garage.logs import note
from garage.models.scoped import ScopedQuerySet


@dataclass(frozen=True)
class LinkTokens:
    """Of one sort of link, which keeps `kept(token)` of each.

    Its `purpose` is in the digest, so that the token of another sort opens nothing here.
    """

    guess: Backoff
    purpose: str = ""

    def draw(self) -> str:
        return secrets.token_urlsafe(20)

    def digest(self, token: str) -> str:
        return digest(f"{self.purpose}\n{token}" if self.purpose else token)

    def kept(self, token: str) -> dict[str, str]:
        """The columns that a row has of its token; the tail is what tells people one link from another."""
        return {"digest": self.digest(token), "tail": token[-4:]}

    def opened(self, rows: ScopedQuerySet, token: str, *, address: str, at: datetime) -> Any:
        """The one of these rows that has the token, None where there is none; too many guesses end in silence."""
        counter = (self.guess, address)
        if tries.waiting(counter, at=at):
            return None
        link = rows.filter(digest=self.digest(token)).first()
        if link is None:
            tries.claim(counter, at=at)
            if tries.waiting(counter, at=at):
                note(f"{self.guess.what}ed too often", address=address)
        return link


SHARE_TOKENS = LinkTokens(SHARE_GUESS)
VISIT_TOKENS = LinkTokens(VISIT_GUESS, "visit")
CALENDAR_TOKENS = LinkTokens(CALENDAR_GUESS, "calendar")
