"""May a coat go on, asked of air whose humidity was read."""

from builds.cure.engine.dew_point import dew_point, verdict_at_dew_point


def coating_verdict(limits, *, air, humidity, steel=None):
    """Metal that nobody measured (None) is taken to be as warm as the air."""
    metal = air if steel is None else steel
    return verdict_at_dew_point(limits, dew=dew_point(air, humidity), humidity=humidity, steel=metal)
