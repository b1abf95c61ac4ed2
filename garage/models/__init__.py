"""The fleet's models, one a file."""

from garage.models.device import Device
from garage.models.door import SignInLink, Tries
from garage.models.event import Entry, Event
from garage.models.garage import Garage
from garage.models.gear import Gear, GearRule, NeededGear
from garage.models.hours import DayHours, MemberHours, StationHours
from garage.models.journal import JournalLine, JournalTie
from garage.models.membership import Membership, Skill
from garage.models.night import Night
from garage.models.person import Person
from garage.models.photo import Photo, VehiclePhoto
from garage.models.receipt import Receipt
from garage.models.share import Share
from garage.models.station import Station
from garage.models.vehicle import Vehicle
from garage.models.visit import Visit, VisitLink

__all__ = [
    "DayHours",
    "Device",
    "Entry",
    "Event",
    "Garage",
    "Gear",
    "GearRule",
    "JournalLine",
    "JournalTie",
    "MemberHours",
    "Membership",
    "NeededGear",
    "Night",
    "Person",
    "Photo",
    "Receipt",
    "Share",
    "SignInLink",
    "Skill",
    "Station",
    "StationHours",
    "Tries",
    "Vehicle",
    "VehiclePhoto",
    "Visit",
    "VisitLink",
]
