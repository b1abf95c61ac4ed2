"""Who may do what: each permission a named function whose refusal is a readable sentence."""

from collections.abc import Container

from garage.models import Membership, Vehicle

OWNER, HELPER, VIEWER = (role.value for role in Membership.Role)


def refuse_arranging(member: Membership) -> str | None:
    """Cars, people, stations, events, recipes, share links and the garage itself."""
    if member.role == OWNER:
        return None
    return f"Only the owner of {member.garage} can change this."


def refuse_working(member: Membership) -> str | None:
    """Jobs, links, hold points, findings and the plan."""
    if member.role in (OWNER, HELPER):
        return None
    return "You can look, but not change: ask the owner to make you a helper."


def refuse_work_on(member: Membership, vehicle: Vehicle | None) -> str | None:
    """As `refuse_working`, on one car; looking at what others did, and signing it, is no work on it."""
    if refused := refuse_working(member):
        return refused
    if vehicle is None or member.only_cars is None or vehicle.pk in member.only_cars:
        return None
    return f"{member.name} does not work on {vehicle}: the owner says who does, on the page of each person."


def refuse_put_down(member: Membership, vehicle: Vehicle, hands: Container[Membership]) -> str | None:
    """As `refuse_work_on`; but whoever has the work in hand leaves it, also where he works on its car no more."""
    return refuse_working(member) if member in hands else refuse_work_on(member, vehicle)


def refuse_pull_from(member: Membership, donor: Vehicle) -> str | None:
    """A part off one car for whatever is not that car's own job."""
    if refused := refuse_working(member):
        return refused
    if member.only_donors is None or donor.pk in member.only_donors:
        return None
    return f"{member.name} pulls no parts from {donor}: the owner says who does, on the page of each person."


def refuse_hours(member: Membership, whose: Membership) -> str | None:
    """Everyone who works keeps his own hours; the owner keeps everybody's."""
    if member.role == OWNER or (member.pk == whose.pk and member.role == HELPER):
        return None
    return f"Only {whose.name} or the owner can change these hours."


def refuse_presence(member: Membership) -> str | None:
    """When somebody is in, off or at an event, and so when nobody is at home: for those who work here."""
    if member.role in (OWNER, HELPER):
        return None
    return "Only those who work here see when somebody is in."


def refuse_own_calendar(member: Membership) -> str | None:
    """A calendar of one's own evenings: a viewer's tells nothing of when somebody is not at home, himself included."""
    if member.role in (OWNER, HELPER):
        return None
    return "You only look here and have no evenings of your own: take the calendar of the whole garage."


def refuse_identity(whose: Membership, elsewhere: bool) -> str | None:
    """Name, e-mail and sign-in links open every garage a person is in, not only this one."""
    if elsewhere:
        return f"{whose.name} is in another garage too: only {whose.name} can change this."
    return None


def refuse_leaving_without_owner(owners_left: int) -> str | None:
    if owners_left:
        return None
    return "A garage keeps at least one owner: make somebody else owner first."


def refuse_costs(member: Membership) -> str | None:
    """What things cost, and budgets."""
    if member.role == OWNER:
        return None
    return f"Only the owner of {member.garage} sees what things cost."


def refuse_copies(member: Membership, of_others: int) -> str | None:
    """Backups hold everything on the server: who owns all of its garages asks for them, else whoever runs it."""
    if of_others:
        return "Other people's garages are kept here too: whoever runs the server makes the backups, by command."
    return refuse_arranging(member)


def refuse_data(member: Membership, whose: Membership) -> str | None:
    """What the garage holds of somebody: his own, and the owner gives it out to whoever asks for his."""
    if member.role == OWNER or member.pk == whose.pk:
        return None
    return f"Only {whose.name} or the owner takes this along."
