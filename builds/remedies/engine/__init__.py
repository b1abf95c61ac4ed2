"""What would it take: why a car cannot make it, and the smallest changes that would get it there.

    from builds.remedies.engine.standing import CarStanding, standing, missing_cars, late_wanted
    from builds.remedies.engine.proof import Proof, proofs
    from builds.remedies.engine.changes.defer import Defer, deferrals       # and its neighbours
    from builds.remedies.engine.judges import ByPlan, ByOdds
    from builds.remedies.engine.hunt import Hunt
    from builds.remedies.engine.remedy import Remedy, Trying

    proofs(problem, vehicle, when) -> (Proof(kind, sentence), ...), () when nothing forbids it
    deferrals(problem, plan, vehicle), more_room(problem, plan, vehicle) -> what the problem alone suggests
    Hunt(problem, plan, vehicle, changes, judge=ByPlan(vehicle)).go_on(seconds=10) -> Trying

A change makes another problem of a problem and nothing else; none of them drops a safety job,
lowers its rank or shortens its work. What only the garage can know of, free evenings, parts on
order, a heater, comes to the hunt as changes too.
"""
