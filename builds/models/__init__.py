"""The models of the work, one a file."""

from builds.calendar.models import CalendarFeed, CalendarTold
from builds.cure.models.product import OwnProduct
from builds.cure.models.shop import HeatedHours, ShopDay, TemperatureReading
from builds.gear.models import GearChange, Renewal, UseLife
from builds.joints.models import Joint, JointMark
from builds.money.models import Budget
from builds.needs.models import PartOffer
from builds.news.models import NewsWish
from builds.packing.models import PackItem, PackList, PackLog
from builds.photos.models import HoldPointPhoto, JobPhoto, ReadingPhoto
from builds.plan.models import Plan, Search
from builds.readings.models.age import ReadingAge
from builds.readings.models.reading import OwnKind, Reading, ReadingValue
from builds.readings.models.target import RequiredReadings, Target
from builds.recipes.models import OwnRecipe
from builds.scrutineering.models.check import CarHas, CheckItem, CheckList, CheckLog, OrganiserList
from builds.sums.models import Dimension, KeptSum
from builds.work.models.comment import JobComment
from builds.work.models.entry_run import EntryRun
from builds.work.models.finding import Finding
from builds.work.models.guest_tick import GuestTick
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job, JobStation
from builds.work.models.link import Link, StationHold
from builds.work.models.need import Need
from builds.work.models.owed import Owed, PartUse
from builds.work.models.skill_loan import SkillLoan
from builds.work.models.span import Span
from builds.work.models.states import State

__all__ = [
    "Budget",
    "CalendarFeed",
    "CalendarTold",
    "CarHas",
    "CheckItem",
    "CheckList",
    "CheckLog",
    "Dimension",
    "EntryRun",
    "Finding",
    "GearChange",
    "GuestTick",
    "HeatedHours",
    "HoldPoint",
    "HoldPointPhoto",
    "Job",
    "JobComment",
    "JobPhoto",
    "JobStation",
    "Joint",
    "JointMark",
    "KeptSum",
    "Link",
    "Need",
    "NewsWish",
    "OrganiserList",
    "Owed",
    "OwnKind",
    "OwnProduct",
    "OwnRecipe",
    "PackItem",
    "PackList",
    "PackLog",
    "PartOffer",
    "PartUse",
    "Plan",
    "Reading",
    "ReadingAge",
    "ReadingPhoto",
    "ReadingValue",
    "Renewal",
    "RequiredReadings",
    "Search",
    "ShopDay",
    "SkillLoan",
    "Span",
    "State",
    "StationHold",
    "Target",
    "TemperatureReading",
    "UseLife",
]
