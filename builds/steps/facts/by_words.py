"""What a job is written down with that only its words say, the garage's skill for it among that."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from typing import Any

from builds.readings.engine.readings_said import readings_said
from builds.steps.engine.by_words import ByWords, is_called, is_renamed, job_said, reworded, skill_asked, without
from builds.work.models.job import Job
from garage.models import Skill


@dataclass(frozen=True)
class ToldByWords:
    """What the words and what was ticked come to; `skill` is what such work asks for beside.

    `unticked` are the kinds of work that the words of a new job say and that nobody ticked beside others.
    """

    said: ByWords
    kinds_likely: bool
    measures: tuple[str, ...]
    skill: Skill | None
    unticked: tuple[str, ...] = ()

    @property
    def fields(self) -> dict[str, Any]:
        """As a job is written down with it."""
        return {
            "systems": list(self.said.systems),
            "kinds": list(self.said.kinds),
            "kinds_likely": self.kinds_likely,
            "measures": list(self.measures),
            "skill": self.skill,
            **({"not_opened": list(self.unticked)} if self.unticked else {}),
        }


def skills_for(garage: int, works: Iterable[ByWords]) -> list[Skill | None]:
    """The skill that a garage (pk) has for each of these works, by its slug or by what it is called."""
    asked = [skill_asked(said.kinds, said.measures) for said in works]
    skills = list(Skill.objects.in_garage(garage)) if any(asked) else []
    return [_called(slug, skills) if slug else None for slug in asked]


def _called(asked: str, skills: Iterable[Skill]) -> Skill | None:
    same = (skill for skill in skills if skill.slug == asked)
    return next(same, None) or next((skill for skill in skills if is_called(asked, skill.name)), None)


def told_each(garage: int, jobs: Iterable[ByWords]) -> list[ToldByWords]:
    """Of new jobs in a garage (pk); one query at most."""
    jobs = list(jobs)
    skills = skills_for(garage, jobs)
    return [ToldByWords(said, said.asked, said.measures, skill) for said, skill in zip(jobs, skills, strict=True)]


def told_of(garage: int, said: ByWords) -> ToldByWords:
    """Of a new job in a garage (pk)."""
    (told,) = told_each(garage, [said])
    return told


def told_new(garage: int, title: str, systems: Collection[str] = (), kinds: Collection[str] = ()) -> ToldByWords:
    said = job_said(title, systems, kinds)
    likely = job_said(title, systems).kinds if kinds else ()
    return replace(told_of(garage, said), unticked=tuple(kind for kind in likely if kind not in said.kinds))


def told_changed(job: Job, title: str, systems: Collection[str], kinds: Collection[str]) -> ToldByWords:
    """Of a job that is changed to that; a recipe says itself what its jobs are, unless one is called otherwise.

    Kinds that are only likely go with the systems that they are on; those that somebody chose are said. A skill is
    asked for only where the work was of another sort until now.
    """
    likely = job.kinds_likely and set(kinds) == set(job.kinds)
    if likely:
        kinds = without(kinds, set(job.systems).difference(systems))
    measures, said = tuple(job.measures), ByWords(tuple(systems), tuple(kinds))
    renamed = is_renamed(job.title, title)
    if renamed or not job.recipe:
        said = reworded(job.title, title, systems, kinds)
        gone = set(readings_said(job.title)).difference(readings_said(title))
        measures = tuple(dict.fromkeys([*(slug for slug in measures if slug not in gone), *said.measures]))
    told = replace(said, measures=measures)
    same = skill_asked(told.kinds, measures) == skill_asked(job.kinds, job.measures)
    skill = None if same else skills_for(job.vehicle.garage_id, [told])[0]
    asked = bool(said.likely) or (renamed and (bool(job.recipe) or job_said(title, said.systems, said.kinds).unsaid))
    return ToldByWords(said, likely or asked, measures, skill)
