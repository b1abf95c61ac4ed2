"""What the worker beside the server sends of news."""

import logging
from datetime import datetime
from smtplib import SMTPException

from django.conf import settings
from django.core.mail import EmailMessage
from django.utils import timezone
from django_tasks import task

from builds.news import actions
from builds.news.facts import due
from builds.news.models import NewsWish
from builds.news.pages import NewsMail, news_for, standing_of
from builds.plan.actions.follow import follow
from garage import clock

log = logging.getLogger("garage.news")


@task()
def send_news() -> None:
    send_due(at=clock.now())


def send_due(*, at: datetime) -> int:
    """How many mails were sent; none where the settings have no mail."""
    return sum(_send(wish, at) for wish in due(at)) if settings.SENDS_MAIL else 0


def _send(wish: NewsWish, at: datetime) -> bool:
    garage = wish.member.garage
    with timezone.override(garage.time_zone):
        follow(garage, at=at)
        now = standing_of(wish.member, at)
        mail = news_for(wish, now, at)
    if mail is None:
        actions.note(wish, now.kept())
        return False
    if not actions.claim(wish, at=at):
        return False
    try:
        _mail(wish.member.person.email, mail)
    except (SMTPException, OSError):
        log.exception("news could not be sent")
        actions.give_back(wish)
        return False
    actions.note(wish, now.kept())
    return True


def _mail(address: str, mail: NewsMail) -> None:
    headers = {"List-Unsubscribe": f"<{mail.stop_url}>", "Auto-Submitted": "auto-generated"}
    EmailMessage(mail.subject, mail.text, settings.DEFAULT_FROM_EMAIL, [address], headers=headers).send()
