"""The addresses of each room: one module a room, gathered here."""

from tests.house.addresses import (
    calendar,
    fit,
    gear,
    joints,
    journal,
    labels,
    links,
    money,
    nights,
    packing,
    paddock,
    papers,
    photos,
    readings,
    scrutineering,
    shelf,
    stock_book,
    sums,
    time_log,
)

ROOMS = (
    shelf,
    fit,
    labels,
    stock_book,
    money,
    photos,
    readings,
    gear,
    scrutineering,
    packing,
    joints,
    papers,
    paddock,
    time_log,
    sums,
    nights,
    calendar,
    links,
    journal,
)
ADDRESSES = {name: row for room in ROOMS for name, row in room.ADDRESSES.items()}


def rows(cast):
    return {key: value for room in ROOMS for key, value in room.rows(cast).items()}
