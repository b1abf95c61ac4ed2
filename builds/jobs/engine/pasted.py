"""A list of jobs as somebody pastes it: a line a job, with its length, what it touches and its rank where said."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from builds.jobs.engine.headings import is_heading
from builds.jobs.engine.lengths import LENGTH, Length, in_decimals, length_of
from builds.readings.engine.kinds_touch import touched
from builds.steps.engine.by_words import ByWords, job_said, rank_said, told_apart
from builds.work.engine.ranks import rank_for, refuse_wanted
from garage.engine.names_said import plain
from garage.engine.systems import SYSTEMS
from garage.engine.systems_said import systems_said
from garage.engine.words import duration_words

MOST_LINES, MOST_OF_A_LINE, MOST_LETTERS = 100, 600, 120  # a list, a line of it, a title
GUESS = 60  # minutes of a job that nobody gave a length
RANKS = ("safety", "needed", "wanted")
BULLET = re.compile(r"^\s*(?:[-*+•–—☐□]|\[\s?\]|\(\s\)|\d{1,3}[.)])(?:\s+|$)")
# Struck through as a whole: a word of a line may be struck out, and the rest is still to do.
STRUCK = r"~~(?=(?:(?!~~).)*(?:~~\s*(?:[;\t].*)?)?$)"
DONE = re.compile(rf"^\s*(?:\[[xX✓✔*]\]|\([xX]\)|[✓✔☑☒✅]|{STRUCK})\s*")
DONE_AT_THE_END = re.compile(r"\s*(?:[✓✔✅☑]|[(\[](?:done|finished)[)\]]|\s[-–—:]\s*done)\s*$", re.IGNORECASE)
COLUMNS = re.compile(r"\t|;")
IN_BRACKETS = re.compile(rf"\s*\(\s*({LENGTH})\s*\)", re.IGNORECASE)
AT_THE_END = re.compile(rf"[\s,]+(?:[~≈]|ca\.?|about|approx\.?)?\s*({LENGTH})$", re.IGNORECASE)
WHO = re.compile(r"(?<!\S)@[^\W\d][\w'-]*")  # of a person; @110Nm is a figure
CURE = re.compile(
    rf"(?<!wet and)(?<!wet &)[\s,(]+((?:cures?|curing|dry|dries|drying)(?:\s+(?:for|time))?\s+({LENGTH})|"
    rf"({LENGTH})\s+(?:to\s+)?(?:cure|curing|dry|drying)(?:\s+time)?)(?!\w)\)?",
    re.IGNORECASE,
)
AFTER = re.compile(r"(?<=\S)[\s,(]+after\s+([^()]+)\)?$", re.IGNORECASE)
LABELS = {system.label.casefold(): slug for slug, system in SYSTEMS.items()} | {slug: slug for slug in SYSTEMS}


@dataclass(frozen=True)
class PastedJob:
    """`minutes` it likely takes; `guessed` when its length, or what it touches, was not said; `rank` may be empty.

    `between` are the least and the most minutes where both were written. `after` is the title of another line, or what
    was written where none is called so; `who` and `cure` as written, and how long that is in minutes. `raised` when its
    line says wanted and nothing says what it touches.
    """

    title: str
    minutes: int
    said: ByWords
    rank: str
    guessed_length: bool
    who: str = ""
    cure: str = ""
    cures: int = 0
    after: str = ""
    between: tuple[int, int] | None = None
    raised: bool = False

    @property
    def systems(self) -> tuple[str, ...]:
        return self.said.systems

    @property
    def guessed_systems(self) -> bool:
        return bool(self.said.touches) or not self.said.systems

    @property
    def curing(self) -> str:
        """What the car waits for after it, as a job of nobody's hands."""
        return f"Let it cure: {self.title}"[:MOST_LETTERS]

    @property
    def note(self) -> str:
        """What is kept of its line in words alone."""
        return ", ".join(filter(None, [self.who, self.cure]))


@dataclass(frozen=True)
class PastedList:
    """Jobs in their order, what the list says is `done` already, and its `headings`."""

    jobs: tuple[PastedJob, ...]
    done: tuple[str, ...] = ()
    headings: tuple[str, ...] = ()

    def before(self, job: PastedJob) -> PastedJob | None:
        """The line that the job waits for."""
        return next((other for other in self.jobs if job.after and other.title == job.after), None)

    def cures_last(self, job: PastedJob) -> bool:
        """Whether it cures and no line waits for that: then the car does."""
        return bool(job.cures) and not any(self.before(other) == job for other in self.jobs)


def read_list(text: str, most_minutes: int, *, car: str = "", people: Iterable[str] = ()) -> PastedList:
    """Each line that says something, in its order; the same work once. ValueError with one sentence and the line.

    A heading (`is_heading`) says what the lines below it touch that do not say so themselves. `car` is what the car
    is called, `people` whom a line may name.
    """
    names = _names(people)
    listed: list[tuple[int, str, str]] = []
    done: list[str] = []
    headings: list[str] = []
    for number, line in enumerate(text.splitlines(), 1):
        said, over = _bare(line)
        if over:
            done.append(COLUMNS.split(said)[0].strip(" ~")[:MOST_LETTERS])
        if not over and is_heading(said, car):
            headings.append(said.rstrip(" :!")[:MOST_LETTERS])
        elif said and not over:
            listed.append((number, said, headings[-1] if headings else ""))
    jobs: dict[tuple[tuple[str, ...], str], PastedJob] = {}
    for number, said, heading in listed:
        try:
            job = _read(said, most_minutes, heading, names)
        except ValueError as wrong:
            raise ValueError(f"Line {number}: {wrong}") from wrong
        jobs.setdefault((told_apart(job.title, job.said), job.after.casefold()), job)
    if len(jobs) > MOST_LINES:
        raise ValueError(f"At most {MOST_LINES} jobs at once.")
    return PastedList(tuple(_linked(list(jobs.values()))), tuple(filter(None, done)), tuple(headings))


def _bare(line: str) -> tuple[str, bool]:
    """A line without what stands before a job in a list, and whether that ticks it as done."""
    over, said = False, line.strip()
    while mark := DONE.match(said) or BULLET.match(said):
        over = over or mark.re is DONE
        said = said[mark.end() :].strip()
    if ticked := DONE_AT_THE_END.search(said):
        over, said = True, said[: ticked.start()]
    return said.strip(), over


def _read(line: str, most_minutes: int, heading: str, names: re.Pattern[str] | None) -> PastedJob:
    if len(line) > MOST_OF_A_LINE:
        raise ValueError(f"at most {MOST_OF_A_LINE} letters stand in a line.")
    words, *columns = [" ".join(piece.split()) for piece in COLUMNS.split(line)]
    line_says = _Pieces(in_decimals(words))
    line_says.take(names)
    title = line_says.title
    if not title:
        raise ValueError("it does not say what is to be done.")
    if len(title) > MOST_LETTERS:
        raise ValueError(f"at most {MOST_LETTERS} letters say what is to be done.")
    if line_says.cures > most_minutes:
        raise ValueError(f"nothing cures longer than {duration_words(most_minutes)}.")
    length, systems, rank = _columns(filter(None, [line_says.length, *columns]), most_minutes)
    said = _said(title, systems, systems_said(heading))
    rank = _rank(rank, said, title)
    raised = refuse_wanted(rank, said.systems, said.kinds, said.measures) is not None
    return PastedJob(
        title,
        GUESS if length is None else length.likely,
        said,
        "" if raised else rank,
        length is None,
        line_says.who,
        line_says.cure,
        line_says.cures,
        line_says.after,
        (length.least, length.most) if length and length.least is not None and length.most is not None else None,
        raised,
    )


@dataclass
class _Pieces:
    """What a line says apart from its columns, the title being what is left of it; each as written."""

    title: str
    length: str = ""
    who: str = ""
    cure: str = ""
    cures: int = 0
    after: str = ""

    def take(self, names: re.Pattern[str] | None = None) -> None:
        named = (names and names.search(self.title)) or WHO.search(self.title)
        if named:
            self.who, self.title = named[0].strip(" :()"), _cut(self.title, named)
        if cure := CURE.search(self.title):
            self.cure, self.cures, self.title = cure[1], length_of(cure[2] or cure[3]).likely, _cut(self.title, cure)
        self._length()
        if after := AFTER.search(self.title):
            self.after, self.title = after[1].rstrip(" ,"), self.title[: after.start()]
            self._length()
        self.title = self.title.strip(" ,")

    def _length(self) -> None:
        length = IN_BRACKETS.search(self.title) or AT_THE_END.search(self.title)
        if length and not self.length:
            self.length, self.title = length[1], _cut(self.title, length)


def _said(title: str, systems: Sequence[str], above: tuple[str, ...]) -> ByWords:
    """Of a job with the systems (slugs) of its columns; where neither they nor its words say any, those `above` it."""
    said = job_said(title, systems)
    return said if said.systems else replace(job_said(title, above), touches=above)


def _rank(rank: str, said: ByWords, title: str) -> str:
    """As said; but what is only likely done in it lets it be for safety, and is no fault of the list."""
    if not rank:
        return rank_said(said, title)
    raised = rank_for(said.systems) is None and rank_for(touched(said.systems, said.likely))
    return "" if raised else rank


def _cut(words: str, piece: re.Match[str]) -> str:
    return " ".join(f"{words[: piece.start()]} {words[piece.end() :]}".split()).rstrip(" ,")


def _linked(jobs: Sequence[PastedJob]) -> Iterator[PastedJob]:
    """What waits for another line, by its title; where that is none, or would be a circle, the words stay.

    So they do where they tell one line from another of the same title.
    """
    called = Counter(job.title.casefold() for job in jobs)
    jobs = [_in_words(job) if job.after and called[job.title.casefold()] > 1 else job for job in jobs]
    waits: dict[str, str] = {}
    for job in jobs:
        before = _named(job, jobs) if job.after else ""
        if before and job.title not in _ahead(before, waits):
            waits[job.title] = before
    titled = {job.title: _in_words(job) if job.after and job.title not in waits else job for job in jobs}
    for title, job in titled.items():
        yield replace(job, after=titled[waits[title]].title if title in waits else "")


def _in_words(job: PastedJob) -> PastedJob:
    """What it was to wait for is part of its title again, which is then read as any other."""
    title = f"{job.title} after {job.after}"[:MOST_LETTERS]
    said = _said(title, () if job.guessed_systems else job.systems, job.said.touches)
    return replace(job, title=title, said=said, rank=_rank(job.rank, said, title), after="")


def _ahead(title: str, waits: dict[str, str]) -> set[str]:
    """A line and all that it waits for."""
    ahead = {title}
    while (title := waits.get(title, "")) and title not in ahead:
        ahead.add(title)
    return ahead


def _named(job: PastedJob, jobs: Iterable[PastedJob]) -> str:
    """The one other line that is called so, or has all these words; nothing where several have."""
    wanted, others = plain(job.after), [other for other in jobs if other.title != job.title]
    for other in others:
        if plain(other.title) == wanted:
            return other.title
    having = [other.title for other in others if set(wanted.split()) <= set(plain(other.title).split())]
    return having[0] if wanted and len(having) == 1 else ""


def _columns(columns: Iterable[str], most_minutes: int) -> tuple[Length | None, list[str], str]:
    systems: list[str] = []
    length, rank = None, ""
    for column in columns:
        names = [name.strip().casefold() for name in column.split(",")]
        if column.casefold() in RANKS:
            rank = column.casefold()
        elif all(name in LABELS for name in names):
            systems += [LABELS[name] for name in names]
        else:
            length = _length(column, most_minutes)
    return length, list(dict.fromkeys(systems)), rank


def _length(column: str, most: int) -> Length:
    try:
        length = length_of(column)
    except ValueError as wrong:
        raise ValueError(f"“{column}” is no length such as 1:30 or 45 min, no part of a car and no rank.") from wrong
    if max(length.likely, length.most or 0) > most:
        raise ValueError(f"a job takes at most {duration_words(most)}.")
    return length


def _names(people: Iterable[str]) -> re.Pattern[str] | None:
    """Somebody's name before a colon at the beginning, or in brackets; the whole of it or its first word."""
    called = {name for person in people for name in (person, *person.split()[:1]) if name}
    if not called:
        return None
    either = "|".join(re.escape(name) for name in sorted(called, key=len, reverse=True))
    return re.compile(rf"^(?:{either})\s*:\s+|\(\s*(?:{either})\s*\)", re.IGNORECASE)


def written_out(title: str, minutes: int, systems: Iterable[str], rank: str) -> str:
    """The line that `read_list` reads as this job."""
    hours, rest = divmod(minutes, 60)
    labels = ", ".join(SYSTEMS[slug].label for slug in systems)
    return "; ".join(filter(None, [title.replace(";", ","), f"{hours}:{rest:02d}", labels, rank]))
