"""Pages that are found by what they are called, or by another word for it."""

from dataclasses import dataclass

from django.urls import reverse

from garage.access import refuse_arranging, refuse_copies, refuse_working
from garage.facts.backups import garages_of_others
from garage.models import Membership


@dataclass(frozen=True)
class GaragePage:
    """`page` is the name of its address, `others` what else it may be called."""

    page: str
    name: str
    others: str = ""


GARAGE_PAGES = (
    GaragePage("today", "Today", "tonight evening next"),
    GaragePage("plan_page", "Plan", "strip order of work"),
    GaragePage("plan_odds", "How sure the plan is", "odds runs"),
    GaragePage("log_page", "What the log says", "estimates guesses"),
    GaragePage("vehicle_list", "Cars", "key board vehicles"),
    GaragePage("event_list", "Events"),
    GaragePage("part_list", "Shelf", "parts stock store"),
    GaragePage("want_list", "What is wanted and to buy", "shopping orders parts"),
    GaragePage("owed_list", "What cars are owed", "robbed donor parts"),
    GaragePage("pull_list", "Pull list", "parts tonight"),
    GaragePage("recipe_list", "Recipes", "job lists chains"),
    GaragePage("sum_list", "Sums", "bench calculations"),
    GaragePage("shop_page", "The shop", "temperature humidity heating cures"),
    GaragePage("product_list", "Products", "paint filler sealer glue cures"),
    GaragePage("gear_list", "Gear", "helmets belts extinguishers tools dates"),
    GaragePage("organiser_list", "Organisers", "scrutineering lists"),
    GaragePage("person_list", "People", "helpers hours skills"),
    GaragePage("station_list", "Stations", "bays places of work"),
    GaragePage("calendar_page", "Calendar", "phone feed ics"),
    GaragePage("news_edit", "News by mail", "digest e-mail"),
    GaragePage("garage_settings", "This garage", "settings units currency paper"),
    GaragePage("account_page", "Your account", "password light dark"),
)
WORKERS_PAGES = (GaragePage("journal_list", "Who did what", "journal history"),)
OWNERS_PAGES = (
    GaragePage("money_page", "Money", "costs budget"),
    GaragePage("share_list", "Links", "shared visits"),
    GaragePage("garage_export", "The garage as open files", "export json csv download data"),
    GaragePage("reading_ages", "How old readings may be", "age"),
)
KEEPERS_PAGES = (
    GaragePage("backup_list", "Backups", "copies restore"),
    GaragePage("garage_server", "The server", "version migrations queue disk status"),
)
# Of each car.
CAR_PAGES = (
    GaragePage("photo_story", "Photos by day", "story pictures before after"),
    GaragePage("setup_sheet", "Setup sheet"),
    GaragePage("drive_tag_sheet", "Do-not-drive tag"),
    GaragePage("reading_list", "Readings"),
    GaragePage("sum_kept", "Sums kept"),
    GaragePage("joint_list", "Joints"),
    GaragePage("money_vehicle", "What it cost"),
)
BY_PAGE = {known.page: known for known in (*GARAGE_PAGES, *WORKERS_PAGES, *OWNERS_PAGES, *KEEPERS_PAGES, *CAR_PAGES)}
WORKERS = {known.page for known in WORKERS_PAGES}
KEEPERS = {known.page for known in KEEPERS_PAGES}
OWNERS = {known.page for known in (*OWNERS_PAGES, *KEEPERS_PAGES)} | {"money_vehicle"}


def may_open(me: Membership, page: str) -> bool:
    """Whether a page (the name of its address) answers me; none is offered that does not."""
    if page in KEEPERS:
        return refuse_copies(me, garages_of_others(me.person)) is None
    if page in WORKERS:
        return refuse_working(me) is None
    return page not in OWNERS or refuse_arranging(me) is None


def address(page: str, car: int) -> str:
    return reverse(page, args=[car] if car else [])
