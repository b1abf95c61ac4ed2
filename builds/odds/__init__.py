"""The odds of a plan: three figures a job, many runs of the work as it would go, and what to say.

    from builds.odds.estimates import BetaPert, Figures, left_of, scaled
    from builds.odds.log import FinishedJob, factors, corrected
    from builds.odds.simulate import simulate, runs, own_ranges
    from builds.odds.answer import Odds, VehicleOdds, JobOdds, wilson
    from builds.odds import words

    simulate(problem, estimates, *, runs=1000, seed=1, shared=0, stop=None, progress=None) -> Odds
    runs(problem, estimates, *, seed=1, shared=0) -> Iterator[Tally], one run a step; tally.odds()

`estimates` gives job id -> (low, likely, high) in minutes of work, as they are to be believed:
corrected by the log or not, and for a job in hand what is left of it. A job without figures takes
the work that the problem gives it. What people do in a run is told in course.py; what they
begin next is planned by again.py.
"""
