"""List the bench sums, or those that a word is in."""

from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from builds.bench.catalogue import TOPICS
from builds.bench.guide import guide_text


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "--guide", action="store_true", help="every sum with its source and limits, as builds/bench/SUMS.md has it"
        )
        parser.add_argument("word", nargs="?", default="", help="a word that its name or its question has")

    def handle(self, *args: Any, word: str, guide: bool, **options: Any) -> None:
        if guide:
            self.stdout.write(guide_text(), ending="")
            return
        for topic, all_sums in TOPICS.items():
            sums = [one for one in all_sums if word.lower() in f"{one.slug} {one.title} {one.question}".lower()]
            if sums:
                self.stdout.write(self.style.MIGRATE_HEADING(topic))
            for one in sums:
                self.stdout.write(f"  {one.slug:<24} {one.question}")
        self.stdout.write("manage.py sum NAME says what one asks; manage.py sum NAME field=value … works it out.")
