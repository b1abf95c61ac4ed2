"""What would it take: why a car cannot make it, and the smallest changes that would get it there.

    from builds.engine.remedies.standing import Standing, standing, missing_cars, late_wanted
    from builds.engine.remedies.proof import Proof, proofs
    from builds.engine.remedies.changes import Change, Defer, Session, Hands, Sooner, Room, StayHome
    from builds.engine.remedies.candidates import candidates
    from builds.engine.remedies.attempts import Attempt, Hunt, Remedy, remedies

    proofs(problem, vehicle, when) -> (Proof(kind, sentence), ...), () when nothing forbids it
    candidates(problem, plan, vehicle) -> changes that the problem alone suggests
    remedies(problem, plan, vehicle, *, offers=(), when, seconds, seed, stop) -> (Remedy, ...)

A change makes another problem of a problem and nothing else; none of them drops a safety job,
lowers its rank or shortens its work. `offers` are changes that only the garage can know of: free
evenings, parts on order, a heater.
"""
