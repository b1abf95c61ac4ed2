"""What would it take: why a car cannot make it, and the smallest changes that would get it there.

    from builds.remedies.engine.standing import Standing, standing, missing_cars, late_wanted
    from builds.remedies.engine.proof import Proof, proofs
    from builds.remedies.engine.changes import Change, Defer, Session, Hands, Sooner, Room, StayHome
    from builds.remedies.engine.candidates import candidates
    from builds.remedies.engine.attempts import Attempt, Hunt, Remedy, remedies

    proofs(problem, vehicle, when) -> (Proof(kind, sentence), ...), () when nothing forbids it
    candidates(problem, plan, vehicle) -> changes that the problem alone suggests
    remedies(problem, plan, vehicle, *, offers=(), when, seconds, seed, stop) -> (Remedy, ...)

A change makes another problem of a problem and nothing else; none of them drops a safety job,
lowers its rank or shortens its work. `offers` are changes that only the garage can know of: free
evenings, parts on order, a heater.
"""
