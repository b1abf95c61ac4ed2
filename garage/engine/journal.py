"""The journal in words: what somebody did by writing to an address, and which things that was about."""

import re
from collections.abc import Iterable, Mapping

# What an address such as /jobs/12/finish/ is about, by its first word; the day's page is about its event.
THINGS = {"cars": "cars", "jobs": "jobs", "events": "events", "people": "people", "parts": "parts", "paddock": "events"}
THING = re.compile(r"^/([a-z]+)/(\d{1,18})(?:/|$)")
# Of whom or what nothing is to be kept: which of his garages somebody looks at, and a demo that is only now made.
NOT_KEPT = frozenset({"garage_choose", "demo_load", "first_run"})
# In what was said, instead of a name: somebody may be called otherwise one day or be erased, and no line is changed.
MARK = re.compile(r"\{people-(\d{1,18})\}")
MOST_SAID = 500
CUT_MARK = re.compile(r"\{[^{}]*$")

NOUNS = {
    "batch": "a sheet for the shelf",
    "calendar": "a calendar",
    "check": "a scrutineering list",
    "comment": "a comment",
    "day_hours": "a day that differs",
    "device": "a device",
    "entry": "an entry",
    "event": "an event",
    "gear": "gear",
    "hold_point": "a hold point",
    "interface": "what a part fits",
    "job": "a job",
    "joint": "a joint",
    "link": "a link between jobs",
    "need": "what a job needs",
    "night": "hours overnight",
    "organiser": "an organiser's list",
    "pack": "a line of the pack list",
    "part": "a part",
    "person": "a person",
    "photo": "a photo",
    "place": "a place on the shelf",
    "product": "a product",
    "reading": "a reading",
    "recipe": "a recipe",
    "share": "a shared page",
    "skill": "a skill",
    "station": "a station",
    "station_hold": "a station kept for a car",
    "sum": "a sum",
    "trial": "a what-if trial",
    "vehicle": "a car",
    "visit_link": "a link that asks who can come",
    "want": "a part that is wanted",
}
VERBS = {
    "add": "wrote down",
    "count": "counted",
    "cut": "cut",
    "delete": "deleted",
    "drop": "dropped",
    "edit": "changed",
    "end": "signed out",
    "fail": "failed a line of",
    "finish": "finished",
    "free": "freed",
    "got": "said that it is here:",
    "hold": "held",
    "keep": "kept",
    "leave": "left",
    "make": "made",
    "mark": "marked",
    "move": "moved",
    "release": "let go on with",
    "remove": "took off",
    "renew": "renewed",
    "reopen": "opened again",
    "reset": "set back",
    "retire": "took out of use:",
    "revoke": "revoked",
    "sign": "signed",
    "start": "started",
    "stop": "put down",
    "strike": "struck out",
    "take": "took",
    "tick": "ticked a line of",
    "undo": "took back a tick of",
    "write": "wrote in",
}
WHOLE = {
    "account_elsewhere": "signed out every other device",
    "account_page": "changed an account",
    "account_sign_in": "changed how somebody signs in",
    "backup_add": "asked for a backup",
    "batch_check": "looked through a sheet for the shelf",
    "batch_columns": "said what the columns of a sheet are",
    "batch_row": "changed a row of a sheet for the shelf",
    "batch_row_drop": "left a row of a sheet out",
    "batch_write": "put a sheet on the shelf",
    "calendar_add": "made a calendar",
    "check_has": "wrote down what a car has",
    "check_leave_out": "left a line of a scrutineering list out",
    "check_many": "ticked a section of a scrutineering list",
    "cure_sand": "sanded a coat",
    "demo_leave": "left the demo",
    "garage_settings": "changed the garage",
    "gear_life": "said how long gear lasts",
    "gear_needed": "said which gear a car must have",
    "gear_pass": "let gear count again",
    "gear_rules": "said how an event judges gear",
    "hours_edit": "changed a week",
    "hours_tonight": "changed the hours of a day",
    "job_found": "found something",
    "job_night": "put a job overnight, or took it back",
    "job_seen": "found something",
    "job_paste": "wrote down a list of jobs",
    "job_whole": "put a job together again",
    "joint_mark_many": "torqued several joints",
    "joint_sign_many": "signed several joints",
    "log_count": "said whether the odds count with the log",
    "money_event": "changed the budget of an event",
    "money_used": "said what used parts count at",
    "money_vehicle": "changed the budget of a car",
    "move_undo": "undid a move of a part",
    "news_edit": "chose the news by mail",
    "need_part": "said which part a job needs",
    "need_take": "took from the shelf for a job",
    "paddock_write": "wrote on the page of the day",
    "person_delete": "took a person out of the garage",
    "person_erase": "erased a person",
    "person_link": "made a sign-in link",
    "person_link_revoke": "revoked a sign-in link",
    "person_sign_out": "signed a person out everywhere",
    "photo_add": "added photos",
    "plan_search": "looked for a better plan",
    "plan_stop": "stopped looking for a better plan",
    "reading_ages": "said how old readings may be",
    "reading_kind_add": "wrote down a reading of the garage's own",
    "reading_many": "took several readings",
    "recipe_put": "put a recipe on a car",
    "recipe_put_several": "put several recipes on a car",
    "remedy_apply": "did what it would take",
    "required_edit": "said what a car must have read",
    "run_first_session": "said that a car ran",
    "run_none": "said that a car did not run",
    "run_not": "took back that a car ran",
    "run_strip_down": "put the strip-down on cars",
    "share_add": "made a shared page",
    "share_comment": "commented on a job, on a shared page",
    "share_have": "offered a part, on a shared page",
    "share_offer_seen": "saw what was offered",
    "share_tick": "ticked a job, on a shared page",
    "share_tick_refuse": "said that a job is not done that a guest ticked",
    "shop_days": "changed the days ahead of the shop",
    "shop_forget": "took a temperature out",
    "shop_heat": "changed when the shop is heated",
    "shop_read": "read the thermometer",
    "shop_unheat": "took heated hours out",
    "skill_loan_add": "let somebody do a job",
    "skill_loan_delete": "took back that somebody may do a job",
    "sum_delete": "deleted a sum that was kept",
    "target_edit": "changed the limits of a reading",
    "target_offers": "took the usual limits for a car",
    "vehicle_go": "changed whether a car is on the board",
    "vehicle_state": "said how a car stands",
    "visit_link_add": "made a link that asks who can come",
    "visit_page": "said when somebody can come",
    "visit_refuse": "said not this time",
    "visit_take": "took somebody into the plan",
}  # fmt: skip


def act_words(act: str) -> str:
    """`finished a job`, from the name of an address. Raises KeyError for one that has no words."""
    if act in WHOLE:
        return WHOLE[act]
    nouns = [noun for noun in NOUNS if act.startswith(f"{noun}_")]
    noun = max(nouns, key=len, default="")
    return f"{VERBS[act.removeprefix(f'{noun}_')]} {NOUNS[noun]}"


def things_of(paths: Iterable[str]) -> list[tuple[str, int]]:
    """What addresses are about, each once: `("jobs", 12)` of /jobs/12/finish/."""
    found = [match.groups() for path in paths if (match := THING.match(path))]
    return list(dict.fromkeys((THINGS[word], int(key)) for word, key in found if word in THINGS))


def without_names(said: str, people: Iterable[tuple[int, str]]) -> str:
    """With a mark for the name of each of `people`: `{people-12} is in until 22:00.`

    Of two who are called the same the first counts.
    """
    marks = {name: f"{{people-{key}}}" for key, name in reversed([*people])}
    if marks:
        names = "|".join(re.escape(name) for name in sorted(marks, key=len, reverse=True))
        said = re.sub(rf"(?<!\w)(?:{names})(?!\w)", lambda name: marks[name[0]], said)
    return within_most(said)


def within_most(said: str) -> str:
    """As much of it as a line holds, and no half of a mark."""
    return said if len(said) <= MOST_SAID else CUT_MARK.sub("", said[:MOST_SAID])


def people_in(said: str) -> set[int]:
    """The keys of those who are marked in it."""
    return {int(key) for key in MARK.findall(said)}


def with_names(said: str, names: Mapping[int, str]) -> str:
    """As those who are marked are called by their keys now."""
    return MARK.sub(lambda mark: names.get(int(mark[1]), "somebody"), said)
