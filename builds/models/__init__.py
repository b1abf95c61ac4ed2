"""The models of the work, one a file."""

from builds.models.budget import Budget
from builds.models.check import CarHas, CheckItem, CheckList, CheckLog, OrganiserList
from builds.models.finding import Finding
from builds.models.hold_point import HoldPoint
from builds.models.job import Job, JobStation
from builds.models.joint import Joint, JointMark
from builds.models.link import Link, StationHold
from builds.models.need import Need
from builds.models.owed import Owed, PartUse
from builds.models.pack import PackItem, PackList, PackLog
from builds.models.photo import HoldPointPhoto, JobPhoto, ReadingPhoto
from builds.models.plan import Plan, Search
from builds.models.product import OwnProduct
from builds.models.reading import OwnKind, Reading, ReadingValue
from builds.models.recipe import OwnRecipe
from builds.models.run import EntryRun
from builds.models.shop import HeatedHours, ShopDay, TemperatureReading
from builds.models.skill_loan import SkillLoan
from builds.models.span import Span
from builds.models.states import State
from builds.models.target import RequiredReadings, Target

__all__ = [
    "Budget",
    "CarHas",
    "CheckItem",
    "CheckList",
    "CheckLog",
    "EntryRun",
    "Finding",
    "HeatedHours",
    "HoldPoint",
    "HoldPointPhoto",
    "Job",
    "JobPhoto",
    "JobStation",
    "Joint",
    "JointMark",
    "Link",
    "Need",
    "OrganiserList",
    "Owed",
    "OwnKind",
    "OwnProduct",
    "OwnRecipe",
    "PackItem",
    "PackList",
    "PackLog",
    "PartUse",
    "Plan",
    "Reading",
    "ReadingPhoto",
    "ReadingValue",
    "RequiredReadings",
    "Search",
    "ShopDay",
    "SkillLoan",
    "Span",
    "State",
    "StationHold",
    "Target",
    "TemperatureReading",
]
